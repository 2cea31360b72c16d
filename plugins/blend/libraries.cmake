# blend.design is a library of its own, so that its tests reach what is inside.
find_library(GLPK glpk REQUIRED)
file(GLOB design CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/blend/design/*.cpp)
add_library(vatwright_design STATIC ${design})
target_link_libraries(vatwright_design PUBLIC vatwright_chemistry PRIVATE fmt::fmt ${GLPK})
target_link_libraries(plugin_blend PRIVATE vatwright_design)
