#include "host/intake/intake.hpp"

#include "host/files/hash.hpp"
#include "host/intake/control.hpp"

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
      const bool here = std::all_of(where_[i].begin(), where_[i].end(),
                                    [&](const auto& w) { return row.cells[w.first] == w.second; });
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
    std::set<std::string> used{mapping.sample, mapping.date};
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

struct DayAnswer {
  std::string day;
  Answer answer;
};

// One result of all samples, and what its control samples say of it.
class OneResult {
 public:
  OneResult(const Bench& bench, const Mapping& mapping, const RawTable& table, const Sorted& sorted, std::size_t which)
      : bench_(bench),
        mapping_(mapping),
        sorted_(sorted),
        which_(which),
        gauge_(bench, mapping, mapping.results[which], table, sorted.rows_of_result(which)) {}

  const Gauge& gauge() const { return gauge_; }

  // Readings of one day belong together, and of a sample the last day counts.
  void read(IntakeSheet& sheet) {
    for (std::size_t s = 0; s < sheet.samples.size(); ++s) {
      auto& sample = sheet.samples[s];
      const bool control = std::any_of(mapping_.controls.begin(), mapping_.controls.end(), [&](const ControlTarget& t) {
        return t.sample == sample.name && t.result == mapping_.results[which_].name;
      });
      std::map<std::string, SampleRows> days;
      for (const auto* row : sorted_.rows(s, which_)) days[row->day].push_back(row);
      Answer last;
      for (auto day = days.rbegin(); day != days.rend() && (control || last.readings == 0); ++day) {
        Answer answer = gauge_.answer(day->second);
        answer.day = day->first;
        if (control) controls_[sample.name].push_back({day->first, answer});
        if (last.readings == 0) last = std::move(answer);
      }
      if (control) std::reverse(controls_[sample.name].begin(), controls_[sample.name].end());
      sample.answers.push_back(std::move(last));
    }
    sheet.columns.push_back(gauge_.column());
  }

  // `verdicts`: beside the mapping's control samples.
  void judge(const Past& past, IntakeSheet& sheet, std::vector<ControlVerdict>& verdicts) {
    for (std::size_t i = 0; i < mapping_.controls.size(); ++i) {
      const ControlTarget& target = mapping_.controls[i];
      if (target.result != mapping_.results[which_].name) continue;
      ControlChart chart(bench_, mapping_, target);
      const Input* fact = find_lot_key(target.result);
      if (past && fact != nullptr) chart.add_past(past(target.sample, *fact), gauge_.column());
      for (const auto& [day, answer] : controls_[target.sample]) chart.add_day(day, answer, gauge_.column());
      verdicts[i] = chart.verdict(gauge_.column());
      hold_back(chart, sheet, verdicts[i]);
    }
  }

 private:
  void hold_back(const ControlChart& chart, IntakeSheet& sheet, ControlVerdict& verdict) const {
    for (auto& sample : sheet.samples) {
      Answer& answer = sample.answers[which_];
      if (answer.readings == 0) continue;
      const auto why = chart.held_back_on(answer.day);
      if (why.empty()) continue;
      answer.held_back = true;
      if (sample.name != verdict.sample) verdict.held.push_back({sample.name, why});
    }
  }

  const Bench& bench_;
  const Mapping& mapping_;
  const Sorted& sorted_;
  std::size_t which_;
  Gauge gauge_;
  std::map<std::string, std::vector<DayAnswer>, std::less<>> controls_;
};

}  // namespace

bool IntakeSheet::holds() const {
  return notes.empty() &&
         std::all_of(controls.begin(), controls.end(), [](const ControlVerdict& v) { return v.right; }) &&
         std::all_of(samples.begin(), samples.end(), [](const SampleAnswers& sample) {
           return std::all_of(sample.answers.begin(), sample.answers.end(),
                              [](const Answer& answer) { return answer.may_be_used(); });
         });
}

IntakeSheet take_in(const Bench& bench, const Mapping& mapping, const RawTable& table, const Past& past) {
  IntakeSheet sheet;
  sheet.title = mapping.title;
  sheet.demo = mapping.demo;
  sheet.table = table.name();
  sheet.mapping = mapping.document.name();
  sheet.mapping_sha256 = sha256_of(mapping.document.text());
  sheet.dated = !mapping.date.empty();
  const Sorted sorted(mapping, table);
  for (const auto& name : sorted.samples()) sheet.samples.push_back({name, false, {}, {}});
  for (auto& sample : sheet.samples)
    sample.control = std::any_of(mapping.controls.begin(), mapping.controls.end(),
                                 [&](const ControlTarget& t) { return t.sample == sample.name; });
  std::set<const Substance*> reagents;
  sheet.controls.resize(mapping.controls.size());
  for (std::size_t i = 0; i < mapping.results.size(); ++i) {
    OneResult one(bench, mapping, table, sorted, i);
    one.read(sheet);
    one.judge(past, sheet, sheet.controls);
    for (const Substance* reagent : one.gauge().reagents())
      if (reagents.insert(reagent).second) sheet.reagents.push_back(reagent);
  }
  std::sort(sheet.reagents.begin(), sheet.reagents.end(),
            [](const Substance* a, const Substance* b) { return a->facts.id < b->facts.id; });
  carry(mapping, table, sorted, sheet);
  if (!sorted.lost().empty())
    sheet.notes.push_back("no result of the mapping takes row " + numbers(sorted.lost()) +
                          ": look at the words under 'where'");
  if (!sorted.nameless().empty()) sheet.notes.push_back("no sample is named in row " + numbers(sorted.nameless()));
  return sheet;
}

}  // namespace vatwright::intake
