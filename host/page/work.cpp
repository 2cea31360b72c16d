#include "host/page/work.hpp"

#include "host/bench/rule_sets.hpp"
#include "host/sheet/writers.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace vatwright {

void refuse_files(const Recipe& recipe) {
  for (const auto& [name, mark] : recipe.rules)
    if (is_rule_file(name))
      recipe.document.fail(mark, "a page opens no file of rules",
                           "take it out of the recipe's 'rules:', or use 'vatwright run' beside the file");
}

Registry::Found calculation_of_page(const Premises& on, const std::string& id) {
  std::string close;
  const auto found = on.registry.find(id, close);
  if (found.calculation != nullptr) return found;
  throw BadInput("there is no calculation '" + id + "'\n  " + on.registry.hint(id, close));
}

Computed computed(const std::string& recipe, const Premises& on) {
  Computed out;
  try {
    const Recipe read =
        read_recipe(Document::read(draft_file, recipe), on.book == nullptr ? nullptr : &on.book->source());
    refuse_files(read);
    out.sheet = on.bench.run(read);
  } catch (const InputError& error) {
    out.trouble = {error.what(), error.hint()};
  } catch (const std::runtime_error& error) {  // BadInput, PluginError
    out.trouble = slip_of(error.what(), draft_file);
  }
  return out;
}

Work::Work(const Premises& on, Draft base, Registry::Found of, std::string lot, Fields typed)
    : on_(on), base_(std::move(base)), of_(of), lot_(std::move(lot)), typed_(std::move(typed)) {
  if (const auto basis = base_.word("acid basis"); !basis.empty()) basis_ = find_basis(basis);
  if (lot_.empty() && calculation().on_lot && !base_.lots.empty()) lot_ = base_.lots.back().name;
  place_fields();
}

Work Work::of_last_step(const Premises& on, Draft recipe) {
  if (recipe.steps.empty()) throw BadInput("the recipe has no step yet\n  choose a question");
  const DraftPart step = std::move(recipe.steps.back());
  recipe.steps.pop_back();
  const auto found = calculation_of_page(on, step.name);
  Work work(on, std::move(recipe), found, step.lot, {});
  for (const auto& need : found.calculation->inputs)
    if (const Node* value = step.find(need.input->name); value != nullptr) {
      // What the step says of a fact stays with the step.
      const auto own = under(of_step, need.input->name);
      for (auto& field : work.fields_)
        if (field.input == need.input) field.name = own;
      put_into_fields(*need.input, own, *value, work.typed_);
    }
  work.begin();
  return work;
}

std::string Work::id() const { return fmt::format("{}.{}", of_.plugin->name, of_.calculation->name); }

bool Work::in_one_of(const Input& input) const {
  return std::any_of(calculation().one_of.begin(), calculation().one_of.end(),
                     [&](OneOf names) { return std::find(names.begin(), names.end(), &input) != names.end(); });
}

void Work::place_fields() {
  std::optional<Worksheet> before;
  if (!base_.steps.empty()) before = computed(text_of(base_).text, on_).sheet;
  for (const auto& lot : base_.lots) lots_.push_back(lot.name);
  const LotSheet* left = nullptr;
  if (before)
    for (const auto& lot : before->lots) {
      if (std::find(lots_.begin(), lots_.end(), lot.name) == lots_.end()) lots_.push_back(lot.name);
      if (lot.name == lot_) left = &lot;
    }
  const bool lot_is_typed = base_.lot(lot_) != nullptr;
  const auto booked = as_booked();
  for (const auto& need : calculation().inputs) {
    const Input& input = *need.input;
    const bool fact = calculation().on_lot && find_lot_key(input.name) != nullptr;
    if (fact && left != nullptr) {
      if (const auto at = left->after.find(input.name); at != left->after.end()) {
        known_.push_back({&input, shown(input, at->second)});
        continue;
      }
    }
    const auto in_book = booked.find(find_lot_key(input.name));
    if (fact && left == nullptr && in_book != booked.end()) {
      known_.push_back({&input, shown(input, in_book->second) + ", as the book has it"});
      // What was done is counted by the book; what was read may be read anew.
      if (input.behaves.account != Account::none) continue;
      fields_.push_back({&input, under(of_lot, input.name), fmt::format("f{}", fields_.size() + 1), false,
                         "as the book has it", in_one_of(input)});
      continue;
    }
    const auto name = under(fact && lot_is_typed ? of_lot : of_step, input.name);
    fields_.push_back(
        {&input, name, fmt::format("f{}", fields_.size() + 1), need.required, need.fallback, in_one_of(input)});
  }
}

// Of a lot that the recipe takes from the book.
std::map<const Input*, Value> Work::as_booked() const {
  const DraftPart* lot = base_.lot(lot_);
  if (on_.book == nullptr || lot == nullptr || lot->find("from") == nullptr) return {};
  try {
    return on_.book->source().find(lot_).analysis;
  } catch (const InputError&) {
    return {};  // told where the recipe is computed
  }
}

void Work::begin() {
  const DraftPart* lot = base_.lot(lot_);
  if (lot == nullptr) return;
  for (const auto& field : fields_)
    if (field.name.starts_with(of_lot))
      if (const Node* value = lot->find(field.input->name); value != nullptr)
        put_into_fields(*field.input, field.name, *value, typed_);
}

bool Work::may_be_of_each() const { return calculation().on_lot && base_.steps.empty() && base_.lots.size() > 1; }

FormState Work::state() const { return {typed_, slips_, basis_, lots_}; }

void Work::read_fields() {
  whole_ = base_;
  if (whole_.word("recipe").empty()) whole_.set_word("recipe", lot_.empty() ? label_of(calculation()) : "Lot " + lot_);
  DraftPart step{id(), calculation().on_lot ? lot_ : std::string(), {}};
  DraftPart* lot = whole_.lot(lot_);
  for (const auto& field : fields_) {
    auto value = typed_value(*field.input, field.name, typed_, basis_, lots_);
    const bool on_lot = field.name.starts_with(of_lot) && lot != nullptr;
    if (!value) {
      if (on_lot) lot->erase(field.input->name);
      if (field.required && !in_one_of(*field.input)) missing_.push_back(field.input);
      continue;
    }
    if (auto slip = slip_in(*field.input, *value, basis_)) slips_.emplace(field.name, std::move(*slip));
    (on_lot ? *lot : step).set(field.input->name, std::move(*value));
  }
  for (const auto& names : calculation().one_of) {
    const bool any = std::any_of(names.begin(), names.end(), [&](const Input* input) {
      return step.find(input->name) != nullptr || (lot != nullptr && lot->find(input->name) != nullptr) ||
             std::any_of(known_.begin(), known_.end(), [&](const KnownFact& k) { return k.input == input; });
    });
    if (!any)
      for (const Input* input : names)
        if (std::find(missing_.begin(), missing_.end(), input) == missing_.end()) missing_.push_back(input);
  }
  whole_.steps.push_back(std::move(step));
}

void Work::place_trouble(const Slip& trouble, const DraftText& text) {
  const auto at = text.lines.find(trouble.line);
  if (trouble.line > 0 && at != text.lines.end() && !at->second.key.empty()) {
    const auto& place = at->second;
    const bool of_this = place.step == whole_.steps.size() - 1;
    if (of_this || (place.step == DraftText::no_step && place.lot == lot_)) {
      const auto name = under(of_this ? of_step : of_lot, place.key);
      for (const auto& field : fields_)
        if (field.name == name) {
          slips_.emplace(name, trouble);
          return;
        }
    }
    troubles_.push_back(
        fmt::format("{}{}: {}", place.lot.empty() ? "" : "lot " + place.lot + ", ", place.key, trouble.words()));
    return;
  }
  troubles_.push_back(trouble.words());
}

Fields Work::typed_there() const {
  Fields out;
  if (handed_ == nullptr) return out;
  const auto step = std::string(of_step) + field_mark;
  for (const auto& [name, typed] : typed_.all()) {
    if (!name.starts_with(step)) {
      if (name.starts_with(of_lot)) out.add(name, typed);
      continue;
    }
    const auto inner = std::string_view(name).substr(step.size());
    if (inner != handed_->input->name) out.add(under(of_step, name_there(*handed_, inner)), typed);
  }
  for (const auto& pair : handed_->says) out.add(under(of_step, pair.name), std::string(pair.there));
  const auto substance = under(of_step, handed_->input->name);
  if (!out.has(substance)) out.add(substance, typed_.get(substance));
  return out;
}

void Work::compute() {
  read_fields();
  for (const auto& field : fields_)
    if (handed_ == nullptr) handed_ = handed_over(calculation(), *field.input, typed_.get(field.name));
  if (handed_ != nullptr) return;
  if (!slips_.empty() || !missing_.empty()) return;
  const auto text = text_of(whole_);
  auto outcome = computed(text.text, on_);
  if (outcome.sheet)
    sheet_ = std::move(outcome.sheet);
  else
    place_trouble(outcome.trouble, text);
}

}  // namespace vatwright
