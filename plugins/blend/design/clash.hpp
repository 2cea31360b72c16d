// Why a program has no answer: demands that cannot be met together.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace vatwright::blend::program {

// Whether a program that keeps only these demands has an answer; by place, true for kept.
using Feasible = std::function<bool(const std::vector<bool>&)>;

// Of `count` demands that have no answer together, some that have none either, while all but any one
// of them do (the deletion filter of Chinneck and Dravnieks, ORSA Journal on Computing 3 (1991) 157,
// from memory). Demands are dropped in their order, so that those that ought to be named come last.
// Where one or two alone clash, so few are given. Empty when not even dropping all of them helps.
std::vector<std::size_t> clash(std::size_t count, const Feasible& feasible);

}  // namespace vatwright::blend::program
