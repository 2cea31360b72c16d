#include "units/basis.hpp"

#include <array>

namespace vatwright {
namespace {

// Equivalents: the replaceable hydrogens that an acidity counts (OIV-MA-AS313-01; sulfuric acid
// for the French convention). Formulas: IUPAC names, common knowledge.
constexpr std::array rows{
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

constexpr double per_kilogram(const Basis& b) {
  const double moles = 1.0 / molar_mass(b.formula).value();
  return b.counts == Counts::nitrogen ? moles * b.per_mole * molar_mass("N").value() : moles * b.per_mole;
}

constexpr auto factors = [] {
  std::array<double, rows.size()> out{};
  for (std::size_t i = 0; i < rows.size(); ++i) out[i] = per_kilogram(rows[i]);
  return out;
}();

}  // namespace

std::span<const Basis> bases() { return rows; }

const Basis* find_basis(std::string_view name) {
  for (const auto& row : rows)
    if (row.name == name) return &row;
  return nullptr;
}

double counted_per_kilogram(const Basis& basis) { return factors[static_cast<std::size_t>(&basis - rows.data())]; }

}  // namespace vatwright
