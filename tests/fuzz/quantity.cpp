// The quantity parser: what is read is finite, and an uncertainty never negative; the rest is refused.
#include "tests/fuzz/input.hpp"
#include "units/basis.hpp"
#include "units/error.hpp"
#include "units/expect.hpp"

#include <cmath>

using namespace vatwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text = fuzz::text_of(data, size);
  try {
    parse_unit(text);
  } catch (const InputError&) {
  }
  try {
    const Measured m = parse(text);
    if (!std::isfinite(m.value) || !std::isfinite(m.uncertainty) || m.uncertainty < 0) std::abort();
    expect(m, {m.dimension, m.counted, "g/L", &bases()[0]}, text);
  } catch (const InputError&) {
  }
  return 0;
}
