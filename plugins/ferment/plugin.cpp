// The plugin ferment: fermentations that run.
#include "plugins/ferment/course.hpp"

namespace vatwright::ferment {
namespace {

constexpr Calculation calculations[] = {course::calculation};

}  // namespace
}  // namespace vatwright::ferment

VATWRIGHT_PLUGIN("ferment", "0.1.0", "fermentations that run: course, day of dry, heat",
                 vatwright::ferment::calculations);
