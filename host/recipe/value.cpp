#include "host/recipe/value.hpp"

#include "host/recipe/lot_name.hpp"
#include "units/nearest.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <cmath>

namespace vatwright {
namespace {

std::string choices(const Input& input) {
  std::string out;
  for (const auto choice : input.choices) out += (out.empty() ? "one of: " : ", ") + std::string(choice);
  return out;
}

class ValueReader {
 public:
  ValueReader(const Document& doc, const Input& input, const Basis* basis)
      : doc_(doc), input_(input), basis_(basis), prefix_(std::string(input.name) + ": ") {}

  Value read(const Node& node) const {
    switch (input_.kind) {
      case Kind::quantity:
        return quantity(node);
      case Kind::choice:
      case Kind::substance:
        return word(node);
      case Kind::series:
        return series(node);
      case Kind::shares:
        return shares(node);
      case Kind::amounts:
        return amounts(node);
      case Kind::name:
      case Kind::new_lot:
        return name(node);
      case Kind::date:
        return date(node);
      case Kind::bounds:
        return bounds(node);
      case Kind::lots:
        return lots(node);
      case Kind::rows:
        return rows(node);
    }
    return {};
  }

 private:
  [[noreturn]] void fail(Mark mark, const std::string& what, const std::string& hint) const {
    doc_.fail(mark, prefix_ + what, hint);
  }

  const std::string& text_of(const Node& node) const {
    const bool empty = node.kind == Node::Kind::nothing || (node.kind == Node::Kind::text && node.text.empty());
    if (node.kind == Node::Kind::text && !empty) return node.text;
    fail(node.mark, empty ? "nothing is written here" : "expected one value, read several", example());
  }

  std::string example() const {
    if (input_.kind != Kind::quantity) return choices(input_);
    return input_.unit == "1" || input_.dimension == dimension_of<Ph>()
               ? "write a plain number"
               : "write a number and its unit, such as " + std::string(input_.unit);
  }

  Measured measured(const Node& node, const Expected& expected) const {
    const std::string& text = text_of(node);
    try {
      return expect(parse(text), expected, text);
    } catch (const InputError& error) {
      doc_.fail(node, error, prefix_);
    }
  }

  void in_range(const Node& node, double coherent) const {
    at(node.mark, [&] { refuse_out_of_range(input_, coherent, node.text); });
  }

  // An error is given the place of the node.
  template <class Look>
  void at(Mark mark, Look look) const {
    try {
      look();
    } catch (const InputError& error) {
      fail(mark, error.what(), error.hint());
    }
  }

  Value quantity(const Node& node) const {
    const Measured m = measured(node, {input_.dimension, input_.counted, input_.unit, basis_});
    in_range(node, m.value);
    Value value;
    value.number = m.value;
    value.uncertainty = m.uncertainty;
    value.written = node.text;
    const bool by_recipe = input_.dimension == dimension_of<Acidity>() && basis_ != nullptr &&
                           node.text.find("eq") == std::string::npos && node.text.find(" as ") == std::string::npos;
    if (by_recipe) value.written += " as " + std::string(basis_->name);
    return value;
  }

  Value word(const Node& node) const {
    Value value;
    value.word = text_of(node);
    at(node.mark, [&] { refuse_unknown_word(input_, value.word); });
    return value;
  }

  struct Reading {
    double x, y, uncertainty;
    const Entry* entry;
  };

  // "40 g/hL" and "400 mg/L" are one place on the x axis: which of the readings holds there?
  void refuse_twins(const std::vector<Reading>& rising) const {
    constexpr double alike = 1e-9;
    const auto twin = std::adjacent_find(rising.begin(), rising.end(), [](const Reading& a, const Reading& b) {
      return b.x - a.x <= alike * std::max(std::abs(a.x), std::abs(b.x));
    });
    if (twin == rising.end()) return;
    const Entry *first = twin->entry, *second = (twin + 1)->entry;
    if (second->mark.line < first->mark.line) std::swap(first, second);
    fail(second->mark,
         fmt::format("'{}' is the same as '{}' in line {}, column {}", second->key, first->key, first->mark.line,
                     first->mark.byte + 1),
         "keep one of the two readings, or write their mean");
  }

  std::string such_readings() const {
    const bool light = input_.dimension == dimension_of<Absorbance>();
    return fmt::format("such as {{{}... {}: ... {}}}", light ? "path: 10 mm, " : "", input_.x_unit, input_.unit);
  }

  // {path: 10 mm, 420 nm: 0.35 AU, 520 nm: 0.42 AU}
  Value series(const Node& node) const {
    if (node.kind != Node::Kind::map || node.entries.empty())
      fail(node.mark, "expected a map of " + std::string(input_.x_unit) + " to " + std::string(input_.unit),
           such_readings());
    Value value;
    std::vector<Reading> read;
    for (const auto& entry : node.entries) {
      if (entry.key == "path") {
        value.series.path = measured(entry.value, {dimension_of<Length>(), {}, "mm"}).value;
        if (!(*value.series.path > 0))
          fail(entry.value.mark, "a path that is not above zero", "write that of the cell, such as 10 mm");
        continue;
      }
      Node key;
      key.kind = Node::Kind::text;
      key.text = entry.key;
      key.mark = entry.mark;
      const double x = measured(key, {input_.x_dimension, {}, input_.x_unit}).value;
      const Measured y = measured(entry.value, {input_.dimension, input_.counted, input_.unit, basis_});
      in_range(entry.value, y.value);
      read.push_back({x, y.value, y.uncertainty, &entry});
    }
    if (read.empty()) fail(node.mark, "no readings", such_readings());
    if (input_.dimension == dimension_of<Absorbance>() && !value.series.path)
      fail(node.mark, "an absorbance without its optical path", "add 'path: 10 mm' (the cell that was used)");
    std::stable_sort(read.begin(), read.end(), [](const Reading& a, const Reading& b) { return a.x < b.x; });
    refuse_twins(read);
    const bool uncertain = std::any_of(read.begin(), read.end(), [](const Reading& r) { return r.uncertainty > 0; });
    for (const auto& r : read) {
      value.series.points.emplace_back(r.x, r.y);
      if (uncertain) value.series.uncertainties.push_back(r.uncertainty);
    }
    return value;
  }

  // {Sorrel: 60 %, Blackthorn: 40 %}, or one name alone.
  Value shares(const Node& node) const {
    Value value;
    if (node.kind == Node::Kind::text) {
      value.shares.emplace_back(node.text, 1.0);
      return value;
    }
    if (node.kind != Node::Kind::map || node.entries.empty())
      fail(node.mark, "expected a name, or names with their shares", "such as {Sorrel: 60 %, Blackthorn: 40 %}");
    double sum = 0;
    for (const auto& entry : node.entries) {
      const double share = measured(entry.value, {dimension_of<Fraction>(), {}, "%"}).value;
      if (!(share >= 0 && share <= 1))
        fail(entry.value.mark, "a share of '" + entry.value.text + "', expected 0 % to 100 %", "correct the share");
      sum += share;
      value.shares.emplace_back(entry.key, share);
    }
    constexpr double rounding = 0.005;  // of shares written to a per cent
    if (std::abs(sum - 1) > rounding)
      fail(node.mark, "the shares make " + print_number(100 * sum, 1) + " %, expected 100 %",
           "correct the shares, or add the one that is missing");
    return value;
  }

  // {PVPP: 60 g/hL}
  Value amounts(const Node& node) const {
    const std::string such =
        "such as {" + std::string(input_.choices.front()) + ": ... " + std::string(input_.unit) + "}";
    if (node.kind != Node::Kind::map || node.entries.empty())
      fail(node.mark, "expected names with their amounts", such);
    Value value;
    for (const auto& entry : node.entries) {
      at(entry.mark, [&] { refuse_unknown_word(input_, entry.key); });
      const double amount = measured(entry.value, {input_.dimension, input_.counted, input_.unit, basis_}).value;
      in_range(entry.value, amount);
      value.amounts.emplace_back(entry.key, amount);
    }
    return value;
  }

  Value name(const Node& node) const {
    Value value;
    value.word = text_of(node);
    constexpr std::size_t most = 100;
    if (value.word.size() > most)
      fail(node.mark, fmt::format("a name of {} bytes, expected 1 to {}", value.word.size(), most),
           "write a shorter one");
    if (input_.kind == Kind::new_lot) at(node.mark, [&] { check_lot_name(value.word); });
    return value;
  }

  // 2026-09-14
  Value date(const Node& node) const {
    const std::string& text = text_of(node);
    const auto digits = [&](std::size_t from, std::size_t n) {
      int number = 0;
      for (std::size_t i = from; i < from + n; ++i) {
        if (text[i] < '0' || text[i] > '9') return -1;
        number = 10 * number + (text[i] - '0');
      }
      return number;
    };
    constexpr std::size_t length = 10;
    if (text.size() == length && text[4] == '-' && text[7] == '-') {
      const std::chrono::year_month_day day{std::chrono::year(digits(0, 4)),
                                            std::chrono::month(static_cast<unsigned>(digits(5, 2))),
                                            std::chrono::day(static_cast<unsigned>(digits(8, 2)))};
      if (digits(0, 4) >= 1900 && day.ok()) {
        Value value;
        value.number = static_cast<double>(std::chrono::sys_days(day).time_since_epoch().count());
        value.written = text;
        return value;
      }
    }
    fail(node.mark, "'" + text + "' is no day", "write year, month and day, such as 2026-09-14");
  }

  const Input& key_of(const Entry& entry) const {
    std::vector<std::string_view> known;
    for (const auto& need : input_.each) {
      if (need.input->name == entry.key) return *need.input;
      known.push_back(need.input->name);
    }
    fail(entry.mark, "unknown key '" + entry.key + "'",
         did_you_mean(entry.key, known, fmt::format("there are: {}", fmt::join(known, ", "))));
  }

  // One figure of a bound, in the words of the key that it is on.
  double bound(const Input& key, const Node& node, std::string_view text, std::size_t offset) const {
    try {
      const Measured m = expect(parse(text), {key.dimension, key.counted, key.unit, basis_}, text);
      const ValueReader on_key(doc_, key, basis_);
      on_key.in_range(node, m.value);
      return m.value;
    } catch (const InputError& error) {
      doc_.fail(node, InputError(error.what(), error.hint(), error.offset() + offset), prefix_);
    }
  }

  // {pH: at most 3.40, ethanol: 11.5 to 12.5 % vol, sugar: 2 g/L}
  Value bounds(const Node& node) const {
    if (node.kind != Node::Kind::map || node.entries.empty())
      fail(node.mark, "expected a map of what is bound", "such as {pH: at most 3.40, ethanol: 11.5 to 12.5 % vol}");
    constexpr std::string_view most = "at most ", least = "at least ", between = " to ";
    Value value;
    for (const auto& entry : node.entries) {
      const Input& key = key_of(entry);
      const std::string& text = text_of(entry.value);
      const std::string_view all = text;
      KeyBounds b{&key, {}, {}};
      if (all.starts_with(most)) {
        b.high = bound(key, entry.value, all.substr(most.size()), most.size());
      } else if (all.starts_with(least)) {
        b.low = bound(key, entry.value, all.substr(least.size()), least.size());
      } else if (const auto at = all.find(between); at != std::string_view::npos) {
        b.high = bound(key, entry.value, all.substr(at + between.size()), at + between.size());
        b.low = lower_of_two(key, entry.value, all.substr(0, at), all.substr(at + between.size()));
        if (*b.low > *b.high) fail(entry.value.mark, "'" + text + "' runs from more to less", "swap the two figures");
      } else {
        b.low = b.high = bound(key, entry.value, all, 0);
      }
      value.bounds.push_back(b);
    }
    return value;
  }

  // "11.5 to 12.5 % vol": the first figure may leave its unit to the second.
  double lower_of_two(const Input& key, const Node& node, std::string_view low, std::string_view high) const {
    const bool bare = low.find_first_not_of("0123456789.+-eE ") == std::string_view::npos;
    if (!bare) return bound(key, node, low, 0);
    const auto unit = high.find_first_not_of("0123456789.+-eE ");
    return bound(key, node,
                 std::string(low) + " " + std::string(unit == std::string_view::npos ? "" : high.substr(unit)), 0);
  }

  Row row(const Node& node) const {
    Row out;
    for (const auto& entry : node.entries) {
      const Input& key = key_of(entry);
      out.own.push_back({&key, ValueReader(doc_, key, basis_).read(entry.value)});
    }
    for (const auto& need : input_.each) {
      const bool given = out.find(*need.input) != nullptr;
      if (need.required && !given)
        fail(node.mark, "misses '" + std::string(need.input->name) + "'",
             fmt::format("add '{}: ...', {}", need.input->name, need.input->help));
      if (!given && !need.fallback.empty()) out.own.push_back({need.input, read_default(need.fallback, *need.input)});
    }
    return out;
  }

  // {A: 60 %, B: 12 hL}, {A: {at most: 40 hL, price: 120}}, or a list of names
  Value lots(const Node& node) const {
    Value value;
    if (node.kind == Node::Kind::list) {
      for (const auto& item : node.items) {
        value.rows.emplace_back().name = text_of(item);
        refuse_twice(value.rows, item.mark);
      }
    } else if (node.kind == Node::Kind::map) {
      for (const auto& entry : node.entries) {
        value.rows.push_back(lot(entry));
        value.rows.back().name = entry.key;
      }
    }
    if (value.rows.empty()) fail(node.mark, "expected lots by their names", "such as {T7: 60 %, T8: 40 %}");
    return value;
  }

  void refuse_twice(const std::vector<Row>& rows, Mark mark) const {
    for (std::size_t i = 0; i + 1 < rows.size(); ++i)
      if (rows[i].name == rows.back().name)
        fail(mark, "the lot '" + rows[i].name + "' is named twice", "keep one of the two");
  }

  Row lot(const Entry& entry) const {
    if (entry.value.kind == Node::Kind::map || entry.value.kind == Node::Kind::nothing) return row(entry.value);
    const std::string& text = text_of(entry.value);
    Row out;
    std::string units;
    Measured read;
    try {
      read = parse(text);
    } catch (const InputError& error) {
      doc_.fail(entry.value, error, prefix_);
    }
    for (const auto& need : input_.each) {
      if (need.input->kind != Kind::quantity) continue;
      if (read.dimension == need.input->dimension && read.counted == need.input->counted) {
        out.own.push_back({need.input, ValueReader(doc_, *need.input, basis_).read(entry.value)});
        return out;
      }
      units += (units.empty() ? "" : ", ") + std::string(need.input->name) + " in " + std::string(need.input->unit);
    }
    fail(entry.value.mark, "'" + text + "' says nothing of a lot here", "expected " + units);
  }

  std::string such_row() const {
    std::vector<std::string> keys;
    for (const auto& need : input_.each)
      if (need.required) keys.push_back(fmt::format("{}: ...", need.input->name));
    return fmt::format("such as '- {{{}}}'", fmt::join(keys, ", "));
  }

  // [{date: 2026-08-20, sugar: 180 g/L}, ...]
  Value rows(const Node& node) const {
    if (node.kind != Node::Kind::list || node.items.empty())
      fail(node.mark, "expected a list of readings, each beginning with '- '", such_row());
    Value value;
    for (const auto& item : node.items) {
      if (item.kind != Node::Kind::map) fail(item.mark, "expected a reading with its keys", such_row());
      value.rows.push_back(row(item));
    }
    return value;
  }

  const Document& doc_;
  const Input& input_;
  const Basis* basis_;
  std::string prefix_;
};

}  // namespace

bool can_be(const Input& input, double coherent) {
  if (!input.valid) return true;
  const double number = parse_unit(input.unit).number(coherent);
  const auto [low, high] = *input.valid;
  // Of the bound itself, so that a wide range does not swallow its own low end; and of the last bits
  // of the largest figure, for a bound of zero on a scale with another zero.
  const double last_bits = 1e-13 * std::max(std::abs(low), std::abs(high));
  const auto slack = [&](double bound) { return 1e-9 * std::abs(bound) + last_bits; };
  return number >= low - slack(low) && number <= high + slack(high);
}

std::string range_of(const Input& input) {
  constexpr auto in_full = "{:.9g}";  // 10000000, not 1e+07
  return fmt::format(in_full, input.valid->low) + " to " +
         with_unit(fmt::format(in_full, input.valid->high), input.unit);
}

void refuse_out_of_range(const Input& input, double coherent, std::string_view text) {
  if (can_be(input, coherent)) return;
  throw InputError(fmt::format("'{}' is outside what can be: {}", text, range_of(input)),
                   "check the figure and its unit");
}

void refuse_unknown_word(const Input& input, const std::string& word) {
  if (std::find(input.choices.begin(), input.choices.end(), word) != input.choices.end()) return;
  const auto close = nearest(word, input.choices);
  throw InputError("'" + word + "' is not known here",
                   (close.empty() ? "" : "the nearest is '" + std::string(close) + "'; ") + choices(input));
}

Value read_value(const Document& doc, const Node& node, const Input& input, const Basis* acid_basis) {
  return ValueReader(doc, input, acid_basis).read(node);
}

Value read_default(std::string_view text, const Input& input) {
  const Document doc = Document::read("default of " + std::string(input.name), "\"" + std::string(text) + "\"");
  return read_value(doc, doc.root(), input, nullptr);
}

}  // namespace vatwright
