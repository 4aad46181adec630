// Just enough of C++'s lexical rules to tell code, comments and literals apart.
#include "structure/tree.h"

namespace tree {
namespace {

struct Split {
  std::string code;
  std::vector<std::string> literals;
};

class Lexer {
 public:
  explicit Lexer(const std::string& text) : text_(text) {}

  Split split() {
    while (at_ < text_.size()) step();
    return std::move(out_);
  }

 private:
  bool next_is(const char* word) const { return text_.compare(at_, std::string(word).size(), word) == 0; }

  void step() {
    if (next_is("//")) {
      blank_to(text_.find('\n', at_));
    } else if (next_is("/*")) {
      const auto end = text_.find("*/", at_ + 2);
      blank_to(end == std::string::npos ? end : end + 2);
    } else if (next_is("R\"")) {
      raw_literal();
    } else if (text_[at_] == '"') {
      out_.literals.push_back(quoted('"'));
    } else if (text_[at_] == '\'' && !digit_separator()) {
      quoted('\'');
    } else {
      out_.code += text_[at_++];
    }
  }

  // 1'000'000 holds no character literal.
  bool digit_separator() const {
    return at_ > 0 && std::string("0123456789abcdefABCDEF").find(text_[at_ - 1]) != std::string::npos;
  }

  void blank_to(std::string::size_type end) {
    for (; at_ < text_.size() && at_ < end; ++at_) out_.code += text_[at_] == '\n' ? '\n' : ' ';
  }

  std::string quoted(char quote) {
    std::string literal;
    out_.code += text_[at_++];
    while (at_ < text_.size() && text_[at_] != quote && text_[at_] != '\n') {
      if (text_[at_] == '\\') literal += text_[at_++];
      if (at_ < text_.size()) literal += text_[at_++];
    }
    if (at_ < text_.size()) out_.code += text_[at_++];
    return literal;
  }

  void raw_literal() {
    const auto open = text_.find('(', at_);
    const std::string close = ")" + text_.substr(at_ + 2, open - at_ - 2) + "\"";
    const auto end = text_.find(close, open);
    out_.literals.push_back(text_.substr(open + 1, end - open - 1));
    blank_to(end == std::string::npos ? end : end + close.size());
  }

  const std::string& text_;
  std::string::size_type at_ = 0;
  Split out_;
};

}  // namespace

std::string code_only(const std::string& text) { return Lexer(text).split().code; }
std::vector<std::string> literals(const std::string& text) { return Lexer(text).split().literals; }

}  // namespace tree
