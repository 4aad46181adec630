#pragma once
// How the program ends, the same for every command; docs/commands.md explains them to the user.

namespace teetally {

enum class ExitCode {
  done = 0,
  our_bug = 1,       // the program is wrong, not the user
  your_input = 2,    // the command or a file is wrong; diagnostics say where
  no_answer = 3,     // nothing feasible, or the garden will not work
  world_failed = 4,  // disk, memory or solver failed
};

}  // namespace teetally
