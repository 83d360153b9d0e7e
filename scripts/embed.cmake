# Writes OUTPUT, a C++ source that holds the text of each of FILES as the function FUNCTION of HEADER.
set(body "")
foreach(file IN LISTS FILES)
  get_filename_component(name ${file} NAME_WE)
  file(READ ${file} text)
  string(LENGTH "${text}" length)
  # Compilers limit one literal to 64 KiB; a table is far smaller.
  if(length GREATER 60000)
    message(FATAL_ERROR "${file} is too long to embed")
  endif()
  string(APPEND body "        {\"${name}\", R\"~~toml(${text})~~toml\"},\n")
endforeach()
file(WRITE ${OUTPUT}
"// Made from tables of the source by scripts/embed.cmake.
#include \"${HEADER}\"

namespace ohmfolio {

const std::vector<EmbeddedTable>& ${FUNCTION}() {
    static const std::vector<EmbeddedTable> tables = {
${body}    };
    return tables;
}

} // namespace ohmfolio
")
