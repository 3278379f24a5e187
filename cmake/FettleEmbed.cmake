# fettle_embed(<target> <function> <files>)
#   Puts text files into the program: declares in <function>.h, found as "embedded/<function>.h",
#     std::string_view <function>(std::string_view file_name)   -- empty if there is no such file
#   The files are read when the program is built, so that it runs from any folder.
function(fettle_embed target function)
  set(out_dir ${CMAKE_CURRENT_BINARY_DIR}/embedded)
  set(header ${out_dir}/${function}.h)
  set(source ${out_dir}/${function}.cpp)
  file(WRITE ${header}.new
    "#pragma once\n#include <string_view>\nnamespace fettle {\n"
    "[[nodiscard]] std::string_view ${function}(std::string_view file_name);\n}\n")
  file(COPY_FILE ${header}.new ${header} ONLY_IF_DIFFERENT)
  string(REPLACE ";" "," joined "${ARGN}")
  add_custom_command(OUTPUT ${source}
    COMMAND ${CMAKE_COMMAND} -DOUT=${source} -DFUNCTION=${function} -DFILES=${joined}
            -DFROM=${CMAKE_CURRENT_SOURCE_DIR} -P ${PROJECT_SOURCE_DIR}/cmake/embed_files.cmake
    DEPENDS ${ARGN} ${PROJECT_SOURCE_DIR}/cmake/embed_files.cmake VERBATIM)
  target_sources(${target} PRIVATE ${source})
  target_include_directories(${target} PRIVATE ${CMAKE_CURRENT_BINARY_DIR})
endfunction()
