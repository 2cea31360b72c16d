// The page as it is served: what comes over a socket, and what must not.
#include <gtest/gtest.h>

#include "tests/host/program.hpp"

namespace server_test {

using namespace vatwright::test;

TEST(ServerTest, RefusesWhatABrowserWouldNotSend) {
  const auto said = run_program(source_dir / "tests/host/server_check", {(build_dir / "bin/vatwright").string()});
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.out, "");
}

}  // namespace server_test
