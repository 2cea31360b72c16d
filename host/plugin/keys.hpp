// Typed keys: the declaration of an input or a result is also the key to its value, so that a
// name is spelled once and its C++ type, its dimension and its range cannot drift apart.
#pragma once

#include "host/plugin/description.hpp"

#include <string_view>

namespace vatwright {

// constexpr Key<MassConcentration> target{{.name = "target free SO2", .unit = "mg/L", ...}};
template <class Quantity>
struct Key : Input {
  constexpr explicit Key(Input input, std::string_view counted_as = {}) : Input(input) {
    kind = Kind::quantity;
    dimension = dimension_of<Quantity>();
    counted = counted_as;
  }
};

// One of a few words.
struct Choice : Input {
  constexpr explicit Choice(Input input) : Input(input) { kind = Kind::choice; }
};

// One of a few substances, by their ids in the catalogue.
struct SubstanceChoice : Input {
  constexpr explicit SubstanceChoice(Input input) : Input(input) { kind = Kind::substance; }
};

// A map of X -> Y, such as wavelength -> absorbance.
template <class X, class Y>
struct SeriesKey : Input {
  constexpr explicit SeriesKey(Input input) : Input(input) {
    kind = Kind::series;
    dimension = dimension_of<Y>();
    x_dimension = dimension_of<X>();
  }
};

// A map of name -> share, such as variety -> 60 %.
struct SharesKey : Input {
  constexpr explicit SharesKey(Input input) : Input(input) { kind = Kind::shares; }
};

// A map of a few names -> quantity, such as substance -> how much of it was added.
template <class Quantity>
struct AmountsKey : Input {
  constexpr explicit AmountsKey(Input input) : Input(input) {
    kind = Kind::amounts;
    dimension = dimension_of<Quantity>();
  }
};

// A word of the person's own.
struct NameKey : Input {
  constexpr explicit NameKey(Input input) : Input(input) { kind = Kind::name; }
};

// The name of a lot that the step makes; later steps may name it.
struct NewLotKey : Input {
  constexpr explicit NewLotKey(Input input) : Input(input) { kind = Kind::new_lot; }
};

// A day of the calendar, written 2026-09-14.
struct DateKey : Input {
  constexpr explicit DateKey(Input input) : Input(input) { kind = Kind::date; }
};

// Bounds on the keys in `each`.
struct BoundsKey : Input {
  constexpr explicit BoundsKey(Input input) : Input(input) { kind = Kind::bounds; }
};

// Lots of the recipe, with what `each` says of one.
struct LotsKey : Input {
  constexpr explicit LotsKey(Input input) : Input(input) { kind = Kind::lots; }
};

// A table of readings, with `each` as its columns.
struct RowsKey : Input {
  constexpr explicit RowsKey(Input input) : Input(input) { kind = Kind::rows; }
};

template <class Quantity>
struct Result : ResultInfo {
  constexpr explicit Result(ResultInfo info) : ResultInfo(info) { dimension = dimension_of<Quantity>(); }
};

template <class Quantity>
struct Limit : LimitInfo {
  constexpr explicit Limit(LimitInfo info) : LimitInfo(info) { dimension = dimension_of<Quantity>(); }
};

// The uncertainty of a model: in[model] is how far it is off in this run, nothing on the sheet itself.
template <class Quantity>
struct Model : ModelInfo {
  constexpr explicit Model(ModelInfo info) : ModelInfo(info) { dimension = dimension_of<Quantity>(); }
};

}  // namespace vatwright
