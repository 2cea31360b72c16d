// One fact of a lot in JSON, as a worksheet and the cellar book write it, and back.
#pragma once

#include "host/plugin/description.hpp"
#include "host/plugin/readings.hpp"

#include <nlohmann/json.hpp>

#include <string_view>

namespace vatwright {

// With twelve significant digits: enough to compute on, without the last bits of a unit conversion.
double trimmed(double number);

// {"value": 21.3, "unit": "mg/L"}
nlohmann::ordered_json figure_json(double coherent, std::string_view unit);

// The value in the unit of its key; of an account that nobody stated, who is silent on it.
nlohmann::ordered_json fact_json(const Input& input, const Value& value);

// What fact_json wrote of a lot's key. Throws InputError for anything else.
Value fact_of(const Input& input, const nlohmann::ordered_json& json);

}  // namespace vatwright
