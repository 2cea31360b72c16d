// Exit statuses: host/cli/options.hpp.
#include "host/cli/command_words.hpp"
#include "host/files/printable.hpp"
#include "host/loader/running.hpp"

#include <iostream>
#include <string>
#include <vector>

namespace {

using namespace vatwright;

// In words on standard error; for another program, which asked for JSON, on standard output too.
int refuse(const Options& options, Status status, const std::vector<Problem>& problems, const std::string& words) {
  std::cerr << printable(words) << '\n';  // they quote what a person typed
  if (problems.size() > 1) std::cerr << problems.size() << " slips; nothing was computed\n";
  if (options.format == "json" || options.book.format == "json") std::cout << json_of(problems, status) << std::flush;
  return status;
}

}  // namespace

int main(int argc, char** argv) {
  name_what_breaks_off(plugin_trouble);
  Options options;
  try {
    return answer(argc, argv, options);
  } catch (const BadInput& error) {
    return refuse(options, bad_input, error.problems(), error.what());
  } catch (const InputError& error) {
    const Problem problem{{}, error.what(), error.hint()};
    return refuse(options, bad_input, {problem}, words_of(problem));
  } catch (const PluginError& error) {
    return refuse(options, plugin_trouble, {error.problem()}, std::string("vatwright: ") + error.what());
  } catch (const std::exception& error) {
    const std::string words = std::string("something went wrong that should not: ") + error.what();
    return refuse(options, plugin_trouble, {{{}, words, {}}}, "vatwright: " + words);
  }
}
