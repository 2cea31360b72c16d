# blend.design is a library of its own, so that tests reach what is inside; with it the prediction that
# it stands on.
find_library(GLPK glpk REQUIRED)
file(GLOB design CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/blend/design/*.cpp)
list(FILTER design EXCLUDE REGEX "/design\\.cpp$")
add_library(vatwright_design STATIC ${design} blend/predict.cpp blend/checks.cpp)
vatwright_together(vatwright_design)
target_link_libraries(vatwright_design PUBLIC vatwright_chemistry vatwright_facts fmt::fmt PRIVATE ${GLPK})
target_sources(plugin_blend PRIVATE blend/design/design.cpp)
target_link_libraries(plugin_blend PRIVATE vatwright_design)
