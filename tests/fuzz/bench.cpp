// A whole run with the real plugins: a recipe is refused, or gives a worksheet in every format.
#include "host/recipe/recipe.hpp"
#include "host/sheet/csv.hpp"
#include "host/sheet/writers.hpp"
#include "tests/fuzz/input.hpp"

using namespace vatwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    const Worksheet sheet = fuzz::bench().run(read_recipe(Document::read("recipe.yaml", fuzz::text_of(data, size))));
    write_text(sheet, {});
    write_short_text(sheet, {});
    write_short_html(sheet);
    write_json(sheet);
    write_html(sheet);
    write_csv(sheet);
  } catch (const BadInput&) {
  } catch (const PluginError& error) {
    // A plugin that is asked for and is not there; one that is there must not fail.
    if (std::string(error.what()).find("there is no plugin") == std::string::npos) throw;
  }
  return 0;
}
