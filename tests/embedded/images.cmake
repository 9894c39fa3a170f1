# The images of each target and what is asked of them.
set(run_m4f sh ${here}/cortex_m.sh mps2-an386)
set(run_m7 sh ${here}/cortex_m.sh mps2-an500)
set(out ${CMAKE_CURRENT_BINARY_DIR})

# Desktops: the other compiler, and the vector units' sums as a control.
if(found_clang++)
    compile_for(clang plain objects ${run_sources} ${bits_main} ${board_host})
    image(clang/bits clang ${objects})
    foreach(machine viner_1 viner_2 viner_3)
        bits_test("The same bits by clang on x86-64, ${machine}" same ${machine} ${out}/clang/bits)
    endforeach()
else()
    skipped("The same bits by clang on x86-64" "clang++ is not installed")
endif()

set(vectors_flags -ffp-contract=off ${core_definitions})
list(REMOVE_ITEM vectors_flags -DEIGEN_DONT_VECTORIZE)
compile_for(gcc vectors objects ${run_sources} ${bits_main} ${board_host})
image(gcc/bits_with_vectors gcc ${objects})
bits_test("Other bits where Eigen may sum in vectors" differ short ${out}/gcc/bits_with_vectors)

set(contract_flags -ffp-contract=fast ${core_definitions})
if(found_aarch64-linux-gnu-g++)
    compile_for(aarch64 plain objects ${run_sources} ${bits_main} ${board_host})
    image(aarch64/bits aarch64 ${objects} LINK -static)
    bits_test("The same bits on AArch64" same viner_2 qemu-aarch64 ${out}/aarch64/bits)
    # One file is enough to part; its copies of inline functions come first and count.
    compile_for(aarch64 contract contracted ${PROJECT_SOURCE_DIR}/firmware_core/podrate/filter/flow_filter.cpp)
    list(FILTER objects EXCLUDE REGEX "/filter_flow_filter\\.o$")
    image(aarch64/bits_contracted aarch64 ${contracted} ${objects} LINK -static)
    bits_test("Other bits on AArch64 where products and sums may be contracted" differ short
        qemu-aarch64 ${out}/aarch64/bits_contracted)
else()
    skipped("The same bits on AArch64" "aarch64-linux-gnu-g++ is not installed")
endif()

set(on_m7 "The core on a Cortex-M7")
set(on_m4f "The core on a Cortex-M4F")
if(NOT found_arm-none-eabi-g++)
    skipped("${on_m4f}" "arm-none-eabi-g++ is not installed")
    skipped("${on_m7}" "arm-none-eabi-g++ is not installed")
    return()
endif()

foreach(target m4f m7)
    compile_for(${target} plain core ${run_sources})
    compile_for(${target} plain main ${bits_main})
    compile_for(${target} plain board ${board_cortex_m})
    image(${target}/bits ${target} ${core} ${main} ${board} LINK ${bare_metal} USING ${linker_script})
    bits_test("${on_${target}} gives the same bits" same viner_2 ${run_${target}} ${out}/${target}/bits)
    set(${target}_core ${core})
    set(${target}_main ${main})
    set(${target}_board ${board})
endforeach()

compile_for(m4f contract contracted ${PROJECT_SOURCE_DIR}/firmware_core/podrate/filter/flow_filter.cpp)
set(objects ${m4f_core})
list(FILTER objects EXCLUDE REGEX "/filter_flow_filter\\.o$")
image(m4f/bits_contracted m4f ${contracted} ${objects} ${m4f_main} ${m4f_board} LINK ${bare_metal} USING ${linker_script})
bits_test("Other bits on a Cortex-M4F where products and sums may be contracted" differ short
    ${run_m4f} ${out}/m4f/bits_contracted)

# Start-up, faults and traps: each control must end with its own code.
compile_for(m4f plain main ${control_main})
image(m4f/control m4f ${main} ${m4f_board} LINK ${bare_metal} USING ${linker_script})
add_test(NAME "The board notices faults and the heap and a stack that runs over"
    COMMAND sh ${here}/controls.sh "sh ${here}/cortex_m.sh mps2-an386 ${out}/m4f/control" ${m4f_board} ${here})
set_tests_properties("The board notices faults and the heap and a stack that runs over" PROPERTIES
    SKIP_RETURN_CODE 77 TIMEOUT 60)

set(rest ${core_sources})
list(FILTER rest INCLUDE REGEX "/(bus|c_api)/")
compile_for(m7 plain m7_rest ${rest})
add_custom_target(podrate_m7_rest ALL DEPENDS ${m7_rest})
add_test(NAME "The core wants neither heap nor exceptions nor libm of a controller"
    COMMAND sh ${here}/core_wants.sh ${out}/wants "${m7}" "${m7_core};${m7_rest}" ${out}/m7/bits)

compile_for(m4f plain main ${budget_main})
image(m4f/budget_image m4f ${m4f_core} ${main} ${m4f_board} LINK ${bare_metal} USING ${linker_script})
add_test(NAME "The core keeps within its budget on a Cortex-M4F"
    COMMAND sh ${here}/budget --check ${PROJECT_BINARY_DIR})
set_tests_properties("The core keeps within its budget on a Cortex-M4F" PROPERTIES
    SKIP_RETURN_CODE 77 FIXTURES_REQUIRED samples TIMEOUT 300)
