# Writes a file whose name tells one program from another: a hash of all sources that figures come from.
# -DROOT=... -DTO=...
file(GLOB_RECURSE sources ${ROOT}/firmware_core/*.cpp ${ROOT}/firmware_core/*.hpp ${ROOT}/firmware_core/*.h
     ${ROOT}/firmware_core/*.def ${ROOT}/sim/*.cpp ${ROOT}/sim/*.hpp ${ROOT}/sim/*.def)
list(SORT sources)
set(all "")
foreach(source ${sources})
    file(SHA256 ${source} hash)
    string(APPEND all ${hash})
endforeach()
string(SHA256 mark "${all}")
string(SUBSTRING ${mark} 0 16 mark)
file(CONFIGURE OUTPUT ${TO} CONTENT "// Made by sim/program_mark.cmake.
#include \"season/program_mark.hpp\"

const char* podrate::sim::program_mark() {
    return \"${mark}\";
}
")
