// Everything that can be wrong with a template.
#include <algorithm>

#include "render/page/template.h"
#include "teetally/base/shipped.h"
#include "teetally/base/text.h"

namespace teetally {
namespace {

using Kind = PageName::Kind;

Place place_at(const Source& source, std::size_t offset) {
  const std::string_view before = std::string_view(source->text).substr(0, offset);
  const auto line = static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1;
  const std::size_t start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  int column = 1;
  for (const char c : before.substr(start)) column += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1 : 0;
  return {source, line, column};
}

// What is open around a tag, innermost last.
class Scopes {
 public:
  explicit Scopes(const std::vector<PageName>& names) : scopes_{&names} {}

  const PageName* find(const std::string& name) const {
    static const PageName kItself = {".", Kind::text, {}};
    // Of a list of plain texts the text itself.
    if (name == "." && !scopes_.empty() && scopes_.back() != nullptr && scopes_.back()->empty()) return &kItself;
    for (auto scope = scopes_.rbegin(); scope != scopes_.rend(); ++scope) {
      if (*scope == nullptr) continue;
      for (const PageName& known : **scope) {
        if (known.name == name) return &known;
      }
    }
    return nullptr;
  }
  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const auto* scope : scopes_) {
      if (scope == nullptr) continue;
      for (const PageName& known : *scope) names.push_back(known.name);
    }
    return names;
  }
  // Only a list that repeats has names of its own.
  void open(const TemplateTag& tag, const PageName* found) {
    const bool repeats = tag.sign == '#' && found != nullptr && found->kind == Kind::list;
    scopes_.push_back(repeats ? &found->inside : nullptr);
  }
  void close() { scopes_.pop_back(); }

 private:
  std::vector<const std::vector<PageName>*> scopes_;
};

bool is_section(const TemplateTag& tag) { return tag.sign == '#' || tag.sign == '^'; }

void check_use(const TemplateTag& tag, const PageName& found, Diagnostics& diagnostics) {
  if (is_section(tag)) return;
  const bool raw = tag.sign == '{' || tag.sign == '&';
  if (found.kind == Kind::list) {
    diagnostics.error("render/list-as-text", tag.place, quoted(tag.name) + " is a list; a section is expected").help =
        "write {{#" + tag.name + "}}...{{/" + tag.name + "}}";
  } else if (raw && found.kind == Kind::text) {
    diagnostics
        .error("render/raw-text", tag.place,
               quoted(tag.name) + " holds words from files and must be escaped; two braces are expected")
        .help = "write {{" + tag.name + "}}";
  } else if (!raw && found.kind == Kind::markup) {
    diagnostics
        .error("render/raw-text", tag.place, quoted(tag.name) + " is drawn by the program; three braces are expected")
        .help = "write {{{" + tag.name + "}}}";
  }
}

void check_name(const TemplateTag& tag, const Scopes& scopes, Diagnostics& diagnostics) {
  if (const PageName* found = scopes.find(tag.name)) {
    check_use(tag, *found, diagnostics);
    return;
  }
  Diagnostic& d = diagnostics.error("render/unknown-name", tag.place, "there is no " + quoted(tag.name) + " here");
  if (const auto near = nearest_word(tag.name, scopes.names())) {
    d.help = "did you mean " + quoted(*near) + "?";
  } else {
    d.help = "names known here: " + listed(scopes.names());
  }
}

bool is_of_no_use(const TemplateTag& tag, Diagnostics& diagnostics) {
  if (tag.sign != '>' && tag.sign != '=') return false;
  diagnostics
      .error("render/unsupported-tag", tag.place,
             tag.sign == '>' ? "a page is one file and cannot take in another" : "braces cannot be replaced")
      .help = "take the tag out";
  return true;
}

void check_style(const Source& source, Diagnostics& diagnostics) {
  const std::size_t at = source->text.find("</");
  if (at == std::string::npos) return;
  diagnostics.error("render/bad-style", place_at(source, at), "'</' would end the style sheet; no markup is expected")
      .help = "take it out; styles alone belong here";
}

}  // namespace

std::vector<TemplateTag> template_tags(const Source& source, Diagnostics& diagnostics) {
  std::vector<TemplateTag> tags;
  const std::string& text = source->text;
  for (std::size_t at = text.find("{{"); at != std::string::npos; at = text.find("{{", at)) {
    const std::size_t braces = text.compare(at, 3, "{{{") == 0 ? 3 : 2;
    const std::size_t end = text.find(braces == 3 ? "}}}" : "}}", at);
    if (end == std::string::npos) {
      diagnostics.error("render/open-tag", place_at(source, at), "this tag has no end; '}}' is expected");
      return tags;
    }
    std::string inside(trimmed(std::string_view(text).substr(at + braces, end - at - braces)));
    TemplateTag tag{braces == 3 ? '{' : '\0', {}, place_at(source, at)};
    if (braces == 2 && !inside.empty() && std::string_view("#^/&!>=").find(inside.front()) != std::string_view::npos) {
      tag.sign = inside.front();
      inside = std::string(trimmed(std::string_view(inside).substr(1)));
    }
    tag.name = inside;
    tags.push_back(std::move(tag));
    at = end + braces;
  }
  return tags;
}

void check_names(const Source& source, const std::vector<PageName>& names, Diagnostics& diagnostics) {
  Scopes scopes(names);
  std::vector<TemplateTag> open;
  for (const TemplateTag& tag : template_tags(source, diagnostics)) {
    if (tag.sign == '!') continue;
    if (is_of_no_use(tag, diagnostics)) return;
    if (tag.sign == '/') {
      if (open.empty() || open.back().name != tag.name) {
        diagnostics.error("render/section-mismatch", tag.place, "nothing called " + quoted(tag.name) + " is open here");
        return;
      }
      open.pop_back();
      scopes.close();
      continue;
    }
    check_name(tag, scopes, diagnostics);
    if (!is_section(tag)) continue;
    open.push_back(tag);
    scopes.open(tag, scopes.find(tag.name));
  }
  for (const TemplateTag& tag : open) {
    diagnostics.error("render/section-mismatch", tag.place, quoted(tag.name) + " is opened here and never closed");
  }
}

std::string_view shipped_template(std::string_view name) { return shipped_file("pages/" + std::string(name)); }

void check_template(std::string_view name, const Source& source, Diagnostics& diagnostics) {
  if (const auto paper = paper_of(name)) {
    check_names(source, names_of(*paper), diagnostics);
  } else {
    check_style(source, diagnostics);
  }
}

std::string fill_paper(Paper paper, Json values, const OwnTemplates& own, Diagnostics& diagnostics) {
  const auto source_of = [&](const std::string& name) {
    const auto found = own.find(name);
    return found != own.end() ? found->second : source_from_text(name, std::string(shipped_template(name)));
  };
  const Source page = source_of(template_of(paper)), style = source_of(std::string(kStyleSheet));
  Diagnostics found;
  check_template(template_of(paper), page, found);
  check_template(kStyleSheet, style, found);
  for (Diagnostic& d : found.in_order()) diagnostics.add(std::move(d));
  if (found.has_errors()) return {};
  values.set("style", style->text);
  return fill_template(page->text, values, names_of(paper));
}

}  // namespace teetally
