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

template <class Quantity>
struct Result : ResultInfo {
  constexpr explicit Result(ResultInfo info) : ResultInfo(info) { dimension = dimension_of<Quantity>(); }
};

template <class Quantity>
struct Limit : LimitInfo {
  constexpr explicit Limit(LimitInfo info) : LimitInfo(info) { dimension = dimension_of<Quantity>(); }
};

}  // namespace vatwright
