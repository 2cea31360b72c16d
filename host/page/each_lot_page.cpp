#include "host/batch/batch.hpp"
#include "host/batch/csv.hpp"
#include "host/page/frame.hpp"
#include "host/page/pages.hpp"
#include "host/recipe/recipe.hpp"
#include "host/sheet/html_rows.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace vatwright {
namespace {

bool fits_a_cell(std::string_view key) {
  const Input* fact = find_lot_key(key);
  return fact != nullptr && fact->kind != Kind::series && fact->kind != Kind::amounts;
}

// A map does not fit: shares, several of a kind.
bool is_one_text(const Node& value) { return value.kind == Node::Kind::text; }

// What the lots say, a row each, and what no cell can hold.
struct LotsInRows {
  std::vector<std::string> heads;
  std::vector<std::string> left_out;
  std::string csv;
};

LotsInRows in_rows(const std::vector<DraftPart>& lots) {
  LotsInRows out;
  const auto once = [](std::vector<std::string>& names, const std::string& name) {
    if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
  };
  for (const auto& lot : lots)
    for (const auto& entry : lot.says) {
      if (fits_a_cell(entry.key) && is_one_text(entry.value))
        once(out.heads, entry.key);
      else
        out.left_out.push_back(fmt::format("{} of lot {}", entry.key, lot.name));
    }
  std::vector<std::string> head{"lot"};
  head.insert(head.end(), out.heads.begin(), out.heads.end());
  out.csv = csv_line(head);
  for (const auto& lot : lots) {
    std::vector<std::string> cells{lot.name};
    for (const auto& key : out.heads) {
      const Node* value = lot.find(key);
      cells.push_back(value != nullptr && is_one_text(*value) ? value->text : "");
    }
    out.csv += csv_line(cells);
  }
  return out;
}

}  // namespace

Response each_lot_page(const Draft& draft, const Premises& on) {
  if (draft.steps.empty() || draft.lots.empty())
    throw BadInput("there is no step that could be done with every lot\n  choose a question first");
  const LotsInRows rows = in_rows(draft.lots);
  if (!rows.left_out.empty())
    throw BadInput(fmt::format("a table of lots has no cell for {}\n  take it out, or ask for each lot by itself",
                               fmt::join(rows.left_out, ", ")));
  Draft one = draft;
  one.lots.clear();
  one.steps = {draft.steps.back()};
  one.steps.front().lot.clear();
  Recipe recipe = read_recipe(Document::read(draft_file, text_of(one).text));
  refuse_files(recipe);
  Batch batch(on.bench, recipe, {.file = "the lots", .text = rows.csv, .units_in_cells = true}, {});
  const HtmlRows writer(batch.ready(), batch.uncertain());
  std::string page;
  batch.run(
      writer, [&](const std::string& text) { page += text; }, [](double, const BatchCount&) {});
  return {.body = std::move(page), .is_sheet = true};
}

}  // namespace vatwright
