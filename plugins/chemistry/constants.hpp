// Constants of physics that more than one model stands on.
#pragma once

namespace vatwright::chemistry::kernel {

// The SI Brochure (9th edition, 2019): both follow exactly from the defining constants.
inline constexpr double gas_constant = 8.31446261815324;  // J/(mol K)
inline constexpr double faraday = 96485.33212331;         // C/mol

inline constexpr double atmosphere = 101325;  // Pa, the standard atmosphere

}  // namespace vatwright::chemistry::kernel
