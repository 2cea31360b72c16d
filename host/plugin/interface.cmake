# The number of the plugin interface: a hash of the headers that a plugin is built with, so that no
# change of a type that crosses the border is missed. Comments and white space do not count.

# vatwright_interface(RESULT ROOT): eight hexadecimal digits of the headers under ROOT.
function(vatwright_interface result root)
  set(folders ${root}/units/*.hpp ${root}/host/plugin/*.hpp ${root}/host/facts/*.hpp)
  if(CMAKE_SCRIPT_MODE_FILE)  # the test of this file
    file(GLOB headers ${folders})
  else()
    file(GLOB headers CONFIGURE_DEPENDS ${folders})
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${headers})
  endif()
  list(SORT headers)
  set(all "")
  foreach(header IN LISTS headers)
    file(READ ${header} text)
    string(REGEX REPLACE "//[^\n]*" "" text "${text}")
    string(REGEX REPLACE "[ \t\r\n]+" " " text "${text}")
    get_filename_component(name ${header} NAME)
    string(SHA256 hash "${name} ${text}")
    string(APPEND all ${hash})
  endforeach()
  string(SHA256 hash "${all}")
  string(SUBSTRING ${hash} 0 8 hash)
  set(${result} ${hash} PARENT_SCOPE)
endfunction()
