// What is typed into the fields of one input, as the value of a recipe, and back.
#pragma once

#include "host/page/request.hpp"
#include "host/plugin/description.hpp"
#include "host/yaml/document.hpp"
#include "units/basis.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace vatwright {

// Parts of a field's name: "step|readings|3|date".
inline constexpr char field_mark = '|';
// The box that takes a lot in, where nothing more is said of it.
inline constexpr std::string_view taken_mark = "*";

// "step|readings" and "3" -> "step|readings|3".
std::string under(std::string_view name, std::string_view part);

// What the fields say that begin with `name`; nothing where all are empty. A number alone is given the unit that
// stands beside its field. `lots`: those of the recipe, for an input that names some of them.
std::optional<Node> typed_value(const Input& input, const std::string& name, const Fields& fields, const Basis* basis,
                                const std::vector<std::string>& lots);

// The fields that say `value`.
void put_into_fields(const Input& input, const std::string& name, const Node& value, Fields& fields);

// Where a lot or a line of readings is said in lines: how many there are.
std::size_t lines_typed(const std::string& name, const Fields& fields);

// "2.8 to 4.2", "0.001 to 10 000 000".
std::string in_words(const Range& range);

// What was understood of a quantity, in the unit that is shown; empty where it is what was typed.
std::string understood(const Input& input, const std::string& typed, const Basis* basis);

// That a reading is outside its usual range; empty where it is within.
std::string unusual(const Input& input, const std::string& typed, const Basis* basis);

// Of an error's words: what was read and expected, and how to mend it, without file, line and caret.
struct Slip {
  std::string what, hint;
  int line = 0;  // 0: none is named

  std::string words() const { return hint.empty() ? what : what + ": " + hint; }
};
Slip slip_of(std::string_view message, std::string_view file);

// What is wrong with the value, in the host's words; nothing when it can be taken.
std::optional<Slip> slip_in(const Input& input, const Node& value, const Basis* basis);

}  // namespace vatwright
