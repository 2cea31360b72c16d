# Texts that go into the program as they stand, so that a page is one file and the program needs none.

# vatwright_embedded(ROOT GENERATED): headers with the texts of ROOT, under the folder GENERATED.
function(vatwright_embedded root generated)
  set(host ${root}/host)
  file(GLOB mappings CONFIGURE_DEPENDS ${root}/recipes/*/mapping.yaml)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${host}/sheet/html.css ${host}/sheet/html_cards.css
                                         ${host}/page/page.css ${host}/page/page.js ${mappings})
  # The style sheet of a page in HTML.
  file(READ ${host}/sheet/html.css VATWRIGHT_STYLE)
  file(READ ${host}/sheet/html_cards.css VATWRIGHT_CARDS)
  configure_file(${host}/sheet/html_style.hpp.in ${generated}/host/sheet/html_style.hpp @ONLY)
  # The style sheet and the script of the page in a browser.
  file(READ ${host}/page/page.css VATWRIGHT_PAGE_STYLE)
  file(READ ${host}/page/page.js VATWRIGHT_PAGE_SCRIPT)
  configure_file(${host}/page/assets.hpp.in ${generated}/host/page/assets.hpp @ONLY)
  # The mappings of a laboratory's tables that one may begin with there.
  list(LENGTH mappings VATWRIGHT_MAPPING_COUNT)
  set(VATWRIGHT_MAPPINGS)
  foreach(file IN LISTS mappings)
    file(READ ${file} text)
    string(APPEND VATWRIGHT_MAPPINGS "R\"yaml(${text})yaml\",\n")
  endforeach()
  configure_file(${host}/page/mappings.hpp.in ${generated}/host/page/mappings.hpp @ONLY)
endfunction()
