#include "host/intake/intake.hpp"

#include "host/files/hash.hpp"
#include "host/intake/gauge.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace vatwright::intake {
namespace {

// The rows of each sample by result.
class Sorted {
 public:
  Sorted(const Mapping& mapping, const RawTable& table) {
    for (const auto& result : mapping.results) {
      auto& where = where_.emplace_back();
      for (const auto& [head, word] : result.where) where.emplace_back(table.column(head, result.mark), word);
    }
    const std::size_t sample = table.column(mapping.sample, mapping.sample_mark);
    for (const auto& row : table.rows()) sort(row, row.cells[sample]);
  }

  const std::vector<std::string>& samples() const { return samples_; }
  SampleRows rows(std::size_t sample, std::size_t result) const {
    const auto at = rows_.find({sample, result});
    return at == rows_.end() ? SampleRows() : at->second;
  }
  SampleRows rows_of_result(std::size_t result) const {
    SampleRows all;
    for (std::size_t i = 0; i < samples_.size(); ++i) {
      const auto some = rows(i, result);
      all.insert(all.end(), some.begin(), some.end());
    }
    return all;
  }
  const SampleRows& all_rows(std::size_t sample) const { return all_[sample]; }
  const std::vector<std::size_t>& lost() const { return lost_; }
  const std::vector<std::size_t>& nameless() const { return nameless_; }

 private:
  void sort(const RawRow& row, const std::string& name) {
    if (name.empty()) {
      nameless_.push_back(row.line);
      return;
    }
    const auto [at, is_new] = index_.emplace(name, samples_.size());
    if (is_new) {
      samples_.push_back(name);
      all_.emplace_back();
    }
    all_[at->second].push_back(&row);
    bool taken = false;
    for (std::size_t i = 0; i < where_.size(); ++i) {
      const bool here = std::ranges::all_of(where_[i], [&](const auto& w) { return row.cells[w.first] == w.second; });
      if (!here) continue;
      taken = true;
      rows_[{at->second, i}].push_back(&row);
    }
    if (!taken) lost_.push_back(row.line);
  }

  std::vector<std::vector<std::pair<std::size_t, std::string>>> where_;
  std::vector<std::string> samples_;
  std::vector<SampleRows> all_;
  std::map<std::string, std::size_t, std::less<>> index_;
  std::map<std::pair<std::size_t, std::size_t>, SampleRows> rows_;
  std::vector<std::size_t> lost_, nameless_;
};

std::string numbers(const std::vector<std::size_t>& lines) {
  constexpr std::size_t most = 12;
  std::string out;
  for (std::size_t i = 0; i < std::min(lines.size(), most); ++i) out += (i == 0 ? "" : ", ") + std::to_string(lines[i]);
  return lines.size() > most ? out + fmt::format(" and {} more", lines.size() - most) : out;
}

void carry(const Mapping& mapping, const RawTable& table, const Sorted& sorted, IntakeSheet& sheet) {
  std::vector<std::size_t> columns;
  for (const auto& [head, mark] : mapping.carry) columns.push_back(table.column(head, mark));
  if (mapping.carry_all) {
    std::set<std::string> used{mapping.sample};
    for (const auto& result : mapping.results) {
      for (const auto& [head, word] : result.where) used.insert(head);
      for (const auto& input : result.inputs)
        for (const auto& [head, mark] : input.heads) used.insert(head);
    }
    for (std::size_t i = 0; i < table.heads().size(); ++i)
      if (!used.contains(table.heads()[i])) columns.push_back(i);
  }
  for (const std::size_t column : columns) sheet.carried_heads.push_back(table.heads()[column]);
  for (std::size_t i = 0; i < sheet.samples.size(); ++i)
    for (const std::size_t column : columns) {
      std::string kept;
      for (const auto* row : sorted.all_rows(i))
        if (kept.empty()) kept = row->cells[column];
      sheet.samples[i].carried.push_back(std::move(kept));
    }
}

// --- is the laboratory right?

ControlVerdict verdict_on(const Bench& bench, const Mapping& mapping, const ControlTarget& target,
                          const AnswerColumn& column, const Answer* answer) {
  ControlVerdict verdict{target.sample, target.result, target.known,
                         "not read",    false,         "read the control sample before these results are used"};
  if (answer == nullptr || answer->readings == 0) return verdict;
  if (!answer->value) {
    verdict.found = "no result";
    verdict.words = answer->amiss.empty() ? "read it again" : answer->amiss.front();
    return verdict;
  }
  verdict.found = fmt::format("{:.{}f} {}", *answer->value, column.decimals, column.unit);
  try {
    const Unit unit = parse_unit(column.unit);
    const Measured known = expect(parse(target.known), {unit.dimension, unit.counted, column.unit}, target.known);
    if (!(known.uncertainty > 0))
      throw InputError("no ± with the target " + in_quotes(target.known),
                       "write how well the laboratory reads it, such as '30.0 ± 0.6 mg/L'");
    const double centre = unit.number(known.value), spread = unit.spread(known.uncertainty, known.value);
    const auto sheet = bench.run(read_recipe(Document::read(
        "control", fmt::format("recipe: control\nsteps:\n  - control.chart: {{readings: [{{value: {:.12g}}}], target: "
                               "{:.12g}, standard deviation: {:.12g}}}\n",
                               *answer->value, centre, spread))));
    verdict.right = sheet.holds();
    verdict.words.clear();
    for (const auto& check : sheet.steps.front().outcome.checks)
      if (!check.holds) verdict.words = check.remedy;
    if (verdict.right && std::abs(*answer->value - centre) > 2 * spread)
      verdict.words = "a warning: more than 2 s off; look again tomorrow";
  } catch (const InputError& error) {
    mapping.document.fail(target.mark, error.what(), error.hint());
  }
  return verdict;
}

void hold_back(const std::string& result, IntakeSheet& sheet) {
  for (std::size_t i = 0; i < sheet.columns.size(); ++i)
    if (sheet.columns[i].name == result)
      for (auto& sample : sheet.samples)
        if (sample.answers[i].readings > 0) sample.answers[i].held_back = true;
}

void judge_controls(const Bench& bench, const Mapping& mapping, IntakeSheet& sheet) {
  for (const auto& target : mapping.controls) {
    const auto column = std::ranges::find(sheet.columns, target.result, &AnswerColumn::name);
    const auto sample = std::ranges::find(sheet.samples, target.sample, &SampleAnswers::name);
    const Answer* answer = nullptr;
    if (sample != sheet.samples.end()) {
      sample->control = true;
      answer = &sample->answers[static_cast<std::size_t>(column - sheet.columns.begin())];
    }
    sheet.controls.push_back(verdict_on(bench, mapping, target, *column, answer));
    if (!sheet.controls.back().right) hold_back(target.result, sheet);
  }
}

}  // namespace

bool IntakeSheet::holds() const {
  return notes.empty() && std::ranges::all_of(controls, [](const ControlVerdict& v) { return v.right; }) &&
         std::ranges::all_of(samples, [](const SampleAnswers& sample) {
           return std::ranges::all_of(sample.answers, [](const Answer& answer) { return answer.may_be_used(); });
         });
}

IntakeSheet take_in(const Bench& bench, const Mapping& mapping, const RawTable& table) {
  IntakeSheet sheet;
  sheet.title = mapping.title;
  sheet.demo = mapping.demo;
  sheet.table = table.name();
  sheet.mapping = mapping.document.name();
  sheet.mapping_sha256 = sha256_of(mapping.document.text());
  const Sorted sorted(mapping, table);
  for (const auto& name : sorted.samples()) sheet.samples.push_back({name, false, {}, {}});
  std::set<const Substance*> reagents;
  for (std::size_t i = 0; i < mapping.results.size(); ++i) {
    Gauge gauge(bench, mapping, mapping.results[i], table, sorted.rows_of_result(i));
    for (std::size_t s = 0; s < sheet.samples.size(); ++s)
      sheet.samples[s].answers.push_back(gauge.answer(sorted.rows(s, i)));
    sheet.columns.push_back(gauge.column());
    for (const Substance* reagent : gauge.reagents())
      if (reagents.insert(reagent).second) sheet.reagents.push_back(reagent);
  }
  std::ranges::sort(sheet.reagents, {}, [](const Substance* s) { return s->facts.id; });
  carry(mapping, table, sorted, sheet);
  judge_controls(bench, mapping, sheet);
  if (!sorted.lost().empty())
    sheet.notes.push_back("no result of the mapping takes row " + numbers(sorted.lost()) +
                          ": look at the words under 'where'");
  if (!sorted.nameless().empty()) sheet.notes.push_back("no sample is named in row " + numbers(sorted.nameless()));
  return sheet;
}

}  // namespace vatwright::intake
