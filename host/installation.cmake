# What is installed: the program, its plugins and data, its manual page and completions, and what a
# plugin outside this tree builds against with find_package(vatwright). Then the same as a package.
include(CMakePackageConfigHelpers)
install(TARGETS vatwright vatwright-index RUNTIME DESTINATION bin)
install(TARGETS vatwright_units EXPORT vatwright LIBRARY DESTINATION lib)
install(TARGETS ${VATWRIGHT_PLUGINS} LIBRARY DESTINATION lib/vatwright/plugins)
install(FILES ${VATWRIGHT_PLUGIN_DIR}/index.json DESTINATION lib/vatwright/plugins)
install(DIRECTORY ${VATWRIGHT_DATA_DIR}/ DESTINATION share/vatwright)
install(DIRECTORY recipes DESTINATION share/doc/vatwright)

# The manual page is what the program says of itself; it is written anew with the program or a plugin.
set(manual ${CMAKE_BINARY_DIR}/share/man/man1/vatwright.1)
file(MAKE_DIRECTORY ${CMAKE_BINARY_DIR}/share/man/man1)
add_custom_command(OUTPUT ${manual} COMMAND vatwright manual --out ${manual}
                   DEPENDS vatwright vatwright_data vatwright_plugin_index ${VATWRIGHT_PLUGIN_DIR}/index.json VERBATIM)
add_custom_target(vatwright_manual ALL DEPENDS ${manual})
install(FILES ${manual} DESTINATION share/man/man1)
install(FILES host/cli/completion/vatwright.bash DESTINATION share/bash-completion/completions RENAME vatwright)
install(FILES host/cli/completion/vatwright.fish DESTINATION share/fish/vendor_completions.d)
install(FILES host/cli/completion/_vatwright DESTINATION share/zsh/vendor-completions)

install(DIRECTORY units DESTINATION include/vatwright FILES_MATCHING PATTERN "*.hpp")
install(TARGETS vatwright_facts EXPORT vatwright ARCHIVE DESTINATION lib)
install(DIRECTORY host/plugin host/facts DESTINATION include/vatwright/host FILES_MATCHING PATTERN "*.hpp")
install(FILES plugins/lab/rounding.hpp plugins/lab/allowance.hpp plugins/lab/dose.hpp
        DESTINATION include/vatwright/plugins/lab)
install(FILES ${CMAKE_BINARY_DIR}/generated/host/plugin/interface.hpp DESTINATION include/vatwright/host/plugin)
install(EXPORT vatwright NAMESPACE vatwright:: DESTINATION lib/cmake/vatwright FILE vatwright-targets.cmake)
file(WRITE ${CMAKE_BINARY_DIR}/vatwright-config.cmake
     "include(CMakeFindDependencyMacro)\nfind_dependency(Boost 1.81 EXACT)\ninclude(\${CMAKE_CURRENT_LIST_DIR}/vatwright-targets.cmake)\n")
write_basic_package_version_file(${CMAKE_BINARY_DIR}/vatwright-config-version.cmake COMPATIBILITY ExactVersion)
install(FILES ${CMAKE_BINARY_DIR}/vatwright-config.cmake ${CMAKE_BINARY_DIR}/vatwright-config-version.cmake
        DESTINATION lib/cmake/vatwright)

# "cpack -G DEB" in the build folder makes the package; what it depends on is read from the binaries.
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME vatwright)
set(CPACK_PACKAGE_VENDOR vatwright)
set(CPACK_PACKAGE_CONTACT "The vatwright project <vatwright@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "calculators from wine laboratory figures to cellar work")
set(CPACK_PACKAGE_DESCRIPTION
    "A recipe names lots of wine with their analysis and the steps to compute. vatwright
checks the unit of every quantity, computes each step in a plugin, holds the answer
against the law or house rules, and writes a worksheet: what to weigh, for which tank,
with which cautions, and what to measure again.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES OFF)  # they are stripped as they are linked; a stamp that is newer than the index costs each run
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS_PRIVATE_DIRS ${CMAKE_LIBRARY_OUTPUT_DIRECTORY})
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "g++, cmake, make, libboost1.81-dev")  # to build a plugin of one's own
include(CPack)
