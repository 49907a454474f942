# cmake -DRULES=<folder> -DOUTPUT=<file.cpp> "-DNAMES=a.yaml;labels/b.yaml" -P embed_rules.cmake
#
# Writes a C++ file that holds the rule files as text, so that the program needs no files beside it.
set(source "// Written by embed_rules.cmake from the files of the folder rules.\n")
string(APPEND source "#include \"packs/rule_files.hpp\"\n\n")
string(APPEND source "namespace ashtriage::packs {\n\n")
string(APPEND source "std::vector<RuleFile> built_in_rule_files() {\n    return {\n")
foreach(name IN LISTS NAMES)
    file(READ "${RULES}/${name}" text)
    string(FIND "${text}" ")end_of_rule_file\"" ending)
    if(NOT ending EQUAL -1)
        message(FATAL_ERROR "${name} contains the mark that ends an embedded file")
    endif()
    string(APPEND source "        {\"${name}\",\nR\"end_of_rule_file(${text})end_of_rule_file\",\n"
                         "         \"built-in ${name}\"},\n")
endforeach()
string(APPEND source "    };\n}\n\n}  // namespace ashtriage::packs\n")
file(WRITE "${OUTPUT}" "${source}")
