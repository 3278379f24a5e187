# Copies the page's sources to where they are built; what is gone from the source goes there too.
foreach(folder src test e2e tools public)
  file(REMOVE_RECURSE ${TO}/${folder})
endforeach()
file(COPY ${FROM}/ DESTINATION ${TO}
  PATTERN node_modules EXCLUDE PATTERN dist EXCLUDE PATTERN generated EXCLUDE PATTERN CMakeLists.txt EXCLUDE)
