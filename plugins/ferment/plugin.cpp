// The plugin ferment: fermentations that run.
#include "plugins/ferment/course.hpp"
#include "plugins/ferment/round.hpp"
#include "plugins/ferment/yeast.hpp"

namespace vatwright::ferment {
namespace {

constexpr Calculation calculations[] = {course::calculation, round::calculation, yeast::calculation};

}  // namespace
}  // namespace vatwright::ferment

VATWRIGHT_PLUGIN("ferment", "0.1.0", "fermentations that run: course, day of dry, heat, yeast",
                 vatwright::ferment::calculations);
