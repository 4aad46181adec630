#pragma once
// The documentation as blocks, so that tests can run what it tells people to type and check what it quotes.
#include <string>
#include <vector>

namespace documents {

// A fenced block; `quotes` is the file named by a comment line before it: <!-- from tests/gardens/x/buy.txt -->
struct Block {
  std::string document;
  int line = 0;
  std::string language;
  std::string quotes;
  std::string text;
};

// README.md, DEVELOPERS.md and docs/, all blocks in order.
std::vector<Block> blocks();

// A command that a document tells people to type, and the exit code it announces ("teetally check x  # exit 2").
struct Command {
  std::string document;
  int line = 0;
  std::string text;
  int exit_code = 0;
};
std::vector<Command> commands();

}  // namespace documents
