#include "host/sheet/fact_json.hpp"

#include "units/parse.hpp"

#include <fmt/format.h>

#include <cstdlib>

namespace vatwright {
namespace {

using Json = nlohmann::ordered_json;

Json bounds_of(const std::vector<KeyBounds>& bounds);
Json rows_of(const std::vector<Row>& rows);

Json value_json(const Input& input, const Value& value) {
  switch (input.kind) {
    case Kind::quantity: {
      Json json = figure_json(value.number, input.unit);
      if (value.uncertainty > 0)
        json["uncertainty"] = trimmed(parse_unit(input.unit).spread(value.uncertainty, value.number));
      return json;
    }
    case Kind::choice:
    case Kind::substance:
      return {{"value", value.word}};
    case Kind::series: {
      Json points = Json::array();
      const Unit x = parse_unit(input.x_unit), y = parse_unit(input.unit);
      for (const auto& [at, reading] : value.series.points)
        points.push_back({trimmed(x.number(at)), trimmed(y.number(reading))});
      Json json{{"value", points}, {"units", {input.x_unit, input.unit}}};
      if (!value.series.uncertainties.empty()) {
        Json uncertainties = Json::array();
        for (std::size_t i = 0; i < value.series.uncertainties.size(); ++i)
          uncertainties.push_back(trimmed(y.spread(value.series.uncertainties[i], value.series.points[i].second)));
        json["uncertainties"] = std::move(uncertainties);
      }
      if (value.series.path) json["path"] = figure_json(*value.series.path, "mm");
      return json;
    }
    case Kind::shares: {
      Json shares = Json::object();
      for (const auto& [name, share] : value.shares) shares[name] = trimmed(100 * share);
      return {{"value", shares}, {"unit", "%"}};
    }
    case Kind::amounts: {
      Json amounts = Json::object();
      const Unit unit = parse_unit(input.unit);
      for (const auto& [name, amount] : value.amounts) amounts[name] = trimmed(unit.number(amount));
      return {{"value", amounts}, {"unit", input.unit}};
    }
    case Kind::name:
    case Kind::new_lot:
      return {{"value", value.word}};
    case Kind::date:
      return {{"value", value.written}};
    case Kind::bounds:
      return {{"value", bounds_of(value.bounds)}};
    case Kind::lots:
    case Kind::rows:
      return {{"value", rows_of(value.rows)}};
  }
  return {};
}

Json bounds_of(const std::vector<KeyBounds>& bounds) {
  Json json = Json::object();
  for (const auto& b : bounds) {
    Json one = Json::object();
    if (b.low) one["at least"] = figure_json(*b.low, b.on->unit);
    if (b.high) one["at most"] = figure_json(*b.high, b.on->unit);
    json[std::string(b.on->name)] = std::move(one);
  }
  return json;
}

Json rows_of(const std::vector<Row>& rows) {
  Json json = Json::array();
  for (const auto& row : rows) {
    Json one = Json::object();
    if (!row.name.empty()) one["lot"] = row.name;
    for (const auto& [key, value] : row.own) one[std::string(key->name)] = value_json(*key, value);
    json.push_back(std::move(one));
  }
  return json;
}

// --- reading

double number_at(const Json& json, const char* member) {
  if (!json.contains(member) || !json[member].is_number())
    throw InputError(fmt::format("a fact without a number '{}'", member), "as a worksheet writes it");
  return json[member].get<double>();
}

const Json& member_at(const Json& json, const char* member) {
  if (!json.is_object() || !json.contains(member))
    throw InputError(fmt::format("a fact without '{}'", member), "as a worksheet writes it");
  return json[member];
}

std::string text_at(const Json& json, const char* member) {
  const Json& text = member_at(json, member);
  if (!text.is_string()) throw InputError(fmt::format("'{}' of a fact is no text", member), "as a worksheet writes it");
  return text.get<std::string>();
}

void read_quantity(const Input& input, const Json& json, Value& value) {
  const Unit unit = parse_unit(text_at(json, "unit"));
  if (unit.dimension != input.dimension)
    throw InputError(fmt::format("{} in {}", input.name, text_at(json, "unit")), "as a worksheet writes it");
  const double number = number_at(json, "value");
  value.number = unit.coherent(number);
  if (json.contains("uncertainty")) value.uncertainty = unit.slope(number) * number_at(json, "uncertainty");
}

void read_series(const Input& input, const Json& json, Value& value) {
  const Unit x = parse_unit(input.x_unit), y = parse_unit(input.unit);
  for (const auto& point : member_at(json, "value")) {
    if (!point.is_array() || point.size() != 2 || !point[0].is_number() || !point[1].is_number())
      throw InputError(fmt::format("a point of {} that is no pair of numbers", input.name), "as a worksheet writes it");
    value.series.points.emplace_back(x.coherent(point[0].get<double>()), y.coherent(point[1].get<double>()));
  }
  if (json.contains("path")) value.series.path = parse_unit("mm").coherent(number_at(json["path"], "value"));
  if (!json.contains("uncertainties")) return;
  for (std::size_t i = 0; i < json["uncertainties"].size() && i < value.series.points.size(); ++i) {
    const Json& spread = json["uncertainties"][i];
    if (spread.is_number())
      value.series.uncertainties.push_back(y.slope(y.number(value.series.points[i].second)) * spread.get<double>());
  }
}

std::vector<std::pair<std::string, double>> named_amounts(const Input& input, const Json& json) {
  std::vector<std::pair<std::string, double>> out;
  const Unit unit = input.kind == Kind::shares ? parse_unit("%") : parse_unit(input.unit);
  const Json& named = member_at(json, "value");
  if (!named.is_object()) throw InputError(fmt::format("{} without names", input.name), "as a worksheet writes it");
  for (const auto& [name, number] : named.items()) {
    if (!number.is_number())
      throw InputError(fmt::format("{} of {} is no number", name, input.name), "as a worksheet writes it");
    out.emplace_back(name, unit.coherent(number.get<double>()));
  }
  return out;
}

}  // namespace

double trimmed(double number) { return std::strtod(fmt::format("{:.12g}", number).c_str(), nullptr); }

Json figure_json(double coherent, std::string_view unit) {
  return {{"value", trimmed(parse_unit(unit).number(coherent))}, {"unit", unit}};
}

Json fact_json(const Input& input, const Value& value) {
  Json json = value_json(input, value);
  if (!value.silent.empty()) json["not stated by"] = value.silent;
  return json;
}

Value fact_of(const Input& input, const Json& json) {
  Value value;
  switch (input.kind) {
    case Kind::quantity:
      read_quantity(input, json, value);
      break;
    case Kind::series:
      read_series(input, json, value);
      break;
    case Kind::shares:
      value.shares = named_amounts(input, json);
      break;
    case Kind::amounts:
      value.amounts = named_amounts(input, json);
      break;
    default:
      value.word = text_at(json, "value");
      break;
  }
  if (json.contains("not stated by"))
    for (const auto& name : json["not stated by"])
      if (name.is_string()) value.silent.push_back(name.get<std::string>());
  return value;
}

}  // namespace vatwright
