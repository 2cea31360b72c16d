// The one table of what a mass is counted as, for whatever needs a formula while it is compiled; else units/basis.hpp.
#pragma once

#include "units/basis.hpp"

#include <array>
#include <stdexcept>

namespace vatwright {

// Equivalents: the replaceable hydrogens that an acidity counts (OIV-MA-AS313-01; sulfuric acid
// for the French convention). Formulas: IUPAC names, common knowledge.
inline constexpr std::array basis_table{
    Basis{"tartaric acid", "C4H6O6", 2, Counts::acid_equivalents},
    Basis{"sulfuric acid", "H2SO4", 2, Counts::acid_equivalents},
    Basis{"malic acid", "C4H6O5", 2, Counts::acid_equivalents},
    Basis{"lactic acid", "C3H6O3", 1, Counts::acid_equivalents},
    Basis{"citric acid", "C6H8O7", 3, Counts::acid_equivalents},
    Basis{"succinic acid", "C4H6O4", 2, Counts::acid_equivalents},
    Basis{"acetic acid", "C2H4O2", 1, Counts::acid_equivalents},
    Basis{"calcium carbonate", "CaCO3", 2, Counts::acid_equivalents},
    Basis{"nitrogen", "N", 1, Counts::nitrogen},
    Basis{"ammonium", "NH4", 1, Counts::nitrogen},
    Basis{"ammonia", "NH3", 1, Counts::nitrogen},
};

// The row of that name, by value: rows are told apart by their place in the table of the units library.
consteval Basis basis_of(std::string_view name) {
  for (const auto& row : basis_table)
    if (row.name == name) return row;
  throw std::invalid_argument("nothing is counted as this");
}

}  // namespace vatwright
