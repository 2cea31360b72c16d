#include "units/basis.hpp"

#include "units/basis_table.hpp"

#include <array>

namespace vatwright {
namespace {

constexpr const auto& rows = basis_table;

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
