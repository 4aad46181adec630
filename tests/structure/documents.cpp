#include "structure/documents.h"

#include "structure/tree.h"

namespace documents {
namespace {

const std::string kFence = "```";
const std::string kFrom = "<!-- from ";
const std::string kExit = "# exit ";

std::vector<tree::File> pages() {
  std::vector<tree::File> all = tree::files("", {".md"});
  for (tree::File& file : tree::files("docs", {".md"})) all.push_back(std::move(file));
  return all;
}

std::string quoted_file(const std::string& line) {
  if (line.compare(0, kFrom.size(), kFrom) != 0) return "";
  return line.substr(kFrom.size(), line.find(" -->") - kFrom.size());
}

void add_blocks(const tree::File& page, std::vector<Block>& out) {
  bool open = false;
  int number = 0;
  std::string quotes;
  for (const std::string& line : tree::lines(page.text)) {
    ++number;
    const bool fence = line.compare(0, kFence.size(), kFence) == 0;
    if (fence && !open) out.push_back({page.path, number, line.substr(kFence.size()), quotes, ""});
    if (!fence && open) out.back().text += line + "\n";
    if (!fence && !open && !line.empty()) quotes = quoted_file(line);
    if (fence && open) quotes.clear();
    if (fence) open = !open;
  }
}

Command read_command(const Block& block, int line, const std::string& text) {
  Command command{block.document, line, text, 0};
  if (const auto at = text.find(kExit); at != std::string::npos) {
    command.exit_code = std::stoi(text.substr(at + kExit.size()));
  }
  return command;
}

}  // namespace

std::vector<Block> blocks() {
  std::vector<Block> out;
  for (const tree::File& page : pages()) add_blocks(page, out);
  return out;
}

std::vector<Command> commands() {
  std::vector<Command> out;
  for (const Block& block : blocks()) {
    if (block.language != "sh") continue;
    int line = block.line;
    for (const std::string& text : tree::lines(block.text)) {
      ++line;
      if (text.compare(0, 9, "teetally ") == 0) out.push_back(read_command(block, line, text));
    }
  }
  return out;
}

}  // namespace documents
