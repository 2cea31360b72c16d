// Must not compile: a mass of sulfur dioxide and a mass of metabisulfite do not add.
#include "units/constants.hpp"
#include "units/counted.hpp"

namespace {

struct SulfurDioxide {};
struct Metabisulfite {};

constexpr auto sulfur_dioxide = vatwright::as<SulfurDioxide>(3.0 * vatwright::gram);
constexpr auto metabisulfite = vatwright::as<Metabisulfite>(3.0 * vatwright::gram);

[[maybe_unused]] constexpr auto allowed = sulfur_dioxide + sulfur_dioxide;
[[maybe_unused]] constexpr auto refused = sulfur_dioxide + metabisulfite;

}  // namespace
