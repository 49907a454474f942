# ashtriage_component(NAME [SOURCES file...] [USES component...] [LIBRARIES target...])
#
# One engine folder becomes one static library `ashtriage_NAME`. Its headers are reached as
# "NAME/file.hpp" through an include folder of its own, so a component sees exactly the headers of
# the components it lists under USES (and of theirs), and a wrong include does not compile.
function(ashtriage_component name)
    cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "SOURCES;USES;LIBRARIES")
    set(target ashtriage_${name})
    set(include_folder ${PROJECT_BINARY_DIR}/include/${name})
    file(MAKE_DIRECTORY ${include_folder})
    file(CREATE_LINK ${CMAKE_CURRENT_SOURCE_DIR} ${include_folder}/${name} SYMBOLIC)

    add_library(${target} STATIC ${arg_SOURCES})
    target_include_directories(${target} PUBLIC ${include_folder})
    ashtriage_warnings(${target})
    foreach(used IN LISTS arg_USES)
        target_link_libraries(${target} PUBLIC ashtriage_${used})
    endforeach()
    target_link_libraries(${target} PUBLIC ${arg_LIBRARIES})
endfunction()

# -Wno-restrict: GCC 12 sees overlapping copies in std::string's operator+ where there are none (its
# bug 105651), and only when it optimises.
function(ashtriage_warnings target)
    target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Wshadow -Wconversion
                           -Wsign-conversion -Wnon-virtual-dtor -Woverloaded-virtual -Werror
                           $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict>)
endfunction()

# ashtriage_tests(NAME SOURCES file... [APART file...] USES component... [LIBRARIES target...])
#
# A GoogleTest program whose every test is known to CTest on its own. Test data is found through
# the macro ASHTRIAGE_SOURCE_DIR. APART: files that are compiled by themselves, since their helpers
# are named like those of others. The checks need no speed, and there are many to compile; the engine
# that they call is optimised as users get it.
function(ashtriage_tests name)
    cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "SOURCES;APART;USES;LIBRARIES")
    add_executable(${name} ${arg_SOURCES} ${arg_APART})
    set_source_files_properties(${arg_APART} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
    target_compile_options(${name} PRIVATE -O1)
    ashtriage_warnings(${name})
    foreach(used IN LISTS arg_USES)
        target_link_libraries(${name} PRIVATE ashtriage_${used})
    endforeach()
    target_link_libraries(${name} PRIVATE GTest::gmock GTest::gtest_main ${arg_LIBRARIES})
    target_compile_definitions(${name} PRIVATE ASHTRIAGE_SOURCE_DIR="${PROJECT_SOURCE_DIR}")
    gtest_discover_tests(${name} TEST_PREFIX ${name}. DISCOVERY_TIMEOUT 60)
endfunction()
