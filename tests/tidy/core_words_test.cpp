// Words that the core may not hold: heap, exceptions, run-time types, files, clocks, threads, libm, globals.
#include <catch2/catch.hpp>

#include "tidy/source_tree.hpp"

using namespace podrate::test;

namespace {

// `new (place)`, which <new> brings, puts an object into storage that is there: no heap.
const std::regex kHeapAndFriends(
    R"(\bnew\b(?!\s*\(place\)|>)|\b(delete|malloc|calloc|realloc|free|throw|try|catch|dynamic_cast|typeid|goto|asm)\b)"
    R"(|\b(printf|fprintf|sprintf|snprintf|puts|fopen|exit|abort|rand|thread_local)\b)"
    R"(|\bstd::(string|vector|map|set|deque|list|unordered_\w+|function|shared_ptr|unique_ptr|optional)\b)"
    R"(|\bstd::(thread|mutex|atomic|chrono|cout|cerr|locale|random_device)\b)"
    R"(|\b(mutex|chrono)\b|\b(time|clock)\s*\()");

const std::regex kHeaders(
    R"(#\s*include\s*<(iostream|fstream|sstream|iomanip|cstdio|stdio\.h|cstdlib|stdlib\.h|string|vector|map|set|deque)"
    R"(|list|memory|functional|thread|mutex|atomic|chrono|ctime|time\.h|locale|stdexcept|exception|random|regex)"
    R"(|unordered_\w+|filesystem|any|variant)>)");

// Everything of libm but the square root: its bits differ between C libraries.
const std::regex kLibm(
    R"(\bstd::(exp|exp2|expm1|log|log2|log10|log1p|pow|cbrt|hypot|sin|cos|tan|asin|acos|atan|atan2|sinh|cosh|tanh)"
    R"(|erf|erfc|tgamma|lgamma|fma|fmod|remainder|ldexp|frexp|round|lround|llround|floor|ceil|trunc|rint|isnan)"
    R"(|isfinite|isinf)\b|\b(expf|logf|powf|sinf|cosf|tanf|atan2f|hypotf|tanhf)\b)");

// `static` data that is not constant, and variables at the left margin.
const std::regex kStaticData(
    R"(^\s*(static|extern)\s+(?!.*\b(const|constexpr)\b)(?!"[^"]*"\s*\{)[^()]*(;|=|\{))");
const std::regex kGlobal(
    R"(^(?!.*\b(const|constexpr|using|namespace|class|struct|enum|template|static_assert|typedef|friend|extern)\b))"
    R"([A-Za-z_][\w:<>, *&]*\s+\w+(\[\w*\])?\s*(=[^=]*|\{[^}]*\})?;)");

std::vector<std::string> found_in_core(const std::regex& pattern) {
    std::vector<std::string> found;
    for (const SourceFile& file : files_below("firmware_core")) {
        const auto lines = lines_with(file.path, code_of(file.text), pattern);
        found.insert(found.end(), lines.begin(), lines.end());
    }
    return found;
}

bool finds(const std::regex& pattern, const std::string& code) {
    return !lines_with("x.cpp", code_of(code), pattern).empty();
}

}  // namespace

TEST_CASE("The core holds no word of heap or exceptions or files or clocks or threads") {
    REQUIRE(files_below("firmware_core").size() > 20);
    CHECK(joined(found_in_core(kHeapAndFriends)).empty());
    CHECK(joined(found_in_core(kHeaders)).empty());
}

TEST_CASE("The core takes nothing from libm but the square root") {
    CHECK(joined(found_in_core(kLibm)).empty());
}

TEST_CASE("The core has no global that can change") {
    CHECK(joined(found_in_core(kStaticData)).empty());
    CHECK(joined(found_in_core(kGlobal)).empty());
}

TEST_CASE("The check of the core's words sees what it should") {
    for (const char* code : {"int* p = new int;", "new (std::nothrow) T", "  throw 1;", "try {",
                             "std::vector<int> v;", "std::printf(\"x\");", "auto t = time(nullptr);",
                             "std::chrono::seconds s;", "auto* d = dynamic_cast<B*>(b);", "free(p);"}) {
        INFO(code);
        CHECK(finds(kHeapAndFriends, code));
    }
    CHECK(finds(kHeaders, "#include <iostream>"));
    CHECK(finds(kHeaders, "#include <vector>"));
    for (const char* code : {"std::exp(x)", "y = std::pow(x, 2);", "sinf(x)", "std::hypot(a, b)"}) {
        INFO(code);
        CHECK(finds(kLibm, code));
    }
    CHECK(finds(kStaticData, "    static int calls = 0;"));
    CHECK(finds(kStaticData, "static Real last;"));
    CHECK(finds(kStaticData, "extern int calls;"));
    CHECK(finds(kGlobal, "int counter = 0;"));
    CHECK(finds(kGlobal, "Real table[4] = {};"));
}

TEST_CASE("The check of the core's words passes over what it should") {
    for (const char* code : {"// a new load, try again", "/* throw away */", "const char* s = \"new free\";",
                             "bool renew = true;", "new (place) Type(value);", "Real time_us = 0;",
                             "newest_ = 0;", "case 'n':"}) {
        INFO(code);
        CHECK_FALSE(finds(kHeapAndFriends, code));
    }
    CHECK_FALSE(finds(kHeaders, "#include <cstdint>"));
    for (const char* code : {"math::exp(x)", "std::sqrt(x)", "math::sin_cos(x).cos"}) {
        INFO(code);
        CHECK_FALSE(finds(kLibm, code));
    }
    for (const char* code :
         {"    static T level_for(T share) { return 0; }", "static constexpr int kBins = 256;",
          "    static const int n = 3;", "extern \"C\" {"}) {
        INFO(code);
        CHECK_FALSE(finds(kStaticData, code));
    }
    for (const char* code : {"inline constexpr int kFaults = 4;", "using Real = float;", "    int local = 3;",
                             "const char* name_of(WorkState state);", "enum class Channel : int;"}) {
        INFO(code);
        CHECK_FALSE(finds(kGlobal, code));
    }
}
