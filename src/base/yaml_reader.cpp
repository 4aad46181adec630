// The one file that names the YAML library. Its events go to our own tree; its complaints are put into plain
// words. The library's node type, its conversions and its loops over documents are not used: they keep
// duplicate keys, read 012 as ten, and never end on a file that starts with a comma.
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include <sstream>

#include "base/tree_builder.h"
#include "base/unclosed.h"
#include "teetally/base/yaml.h"

namespace teetally {
namespace {

Spot spot_of(const YAML::Mark& mark) { return {mark.line, mark.column}; }

// The library's tags "?" and "!" say plain and quoted; others stand in the file.
Trimmings trimmings_of(const std::string& tag, YAML::anchor_t anchor) {
  const bool given = !tag.empty() && tag != "?" && tag != "!";
  return {anchor != YAML::NullAnchor, tag == "!", given ? tag : std::string()};
}

class Events : public YAML::EventHandler {
 public:
  explicit Events(TreeBuilder& tree) : tree_(tree) {}

  void OnDocumentStart(const YAML::Mark& mark) override { tree_.document(spot_of(mark)); }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
    tree_.null(spot_of(mark), trimmings_of({}, anchor));
  }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override { tree_.alias(spot_of(mark)); }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                const std::string& value) override {
    tree_.scalar(spot_of(mark), trimmings_of(tag, anchor), value);
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       YAML::EmitterStyle::value) override {
    tree_.open(YamlNode::Kind::sequence, spot_of(mark), trimmings_of(tag, anchor));
  }
  void OnSequenceEnd() override { tree_.close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  YAML::EmitterStyle::value) override {
    tree_.open(YamlNode::Kind::mapping, spot_of(mark), trimmings_of(tag, anchor));
  }
  void OnMapEnd() override { tree_.close(); }

 private:
  TreeBuilder& tree_;
};

struct Wording {
  const char* library;
  const char* message;
  const char* help;
};

const Wording kWordings[] = {
    {YAML::ErrorMsg::END_OF_SEQ_FLOW, "a list in brackets does not end as it should",
     "separate its items by ',' and close it with ']'"},
    {YAML::ErrorMsg::END_OF_MAP_FLOW, "a mapping in braces does not end as it should",
     "separate its entries by ',' and close it with '}'"},
    {YAML::ErrorMsg::END_OF_SEQ, "this line does not fit the list above it",
     "start every item of a list with '- ', all at the same column"},
    {YAML::ErrorMsg::END_OF_MAP, "this line does not fit the keys above it",
     "indent it like its neighbours, and put ': ' after its key"},
    {YAML::ErrorMsg::MAP_VALUE, "a ':' is not expected here",
     "put quotes around text that has ': ' in it, and indent with spaces"},
    {YAML::ErrorMsg::MAP_KEY, "a key is not expected here", "indent it like its neighbours"},
    {YAML::ErrorMsg::BLOCK_ENTRY, "a '- ' is not expected here", "indent it like its neighbours"},
    {YAML::ErrorMsg::FLOW_END, "this closes a bracket that was never opened",
     "remove it, or put quotes around text that has it"},
    {YAML::ErrorMsg::EOF_IN_SCALAR, "a quoted text is never closed", "close it"},
    {YAML::ErrorMsg::TAB_IN_INDENTATION, "a tab stands in the indentation", "indent with spaces"},
    {YAML::ErrorMsg::UNKNOWN_TOKEN, "this sign cannot start a value", "put quotes around the text"},
};

void report_trouble(const Source& source, const TreeBuilder& tree, const YAML::Exception& trouble,
                    Diagnostics& diagnostics) {
  const Place place = tree.place_of(spot_of(trouble.mark));
  // An alias of a name that is not there never becomes an event.
  if (trouble.msg == YAML::ErrorMsg::UNKNOWN_ANCHOR) {
    diagnostics.error("base/alias", place, "this refers to another part of the file, which is not done here").help =
        "put quotes around text that starts with '*'";
    return;
  }
  Diagnostic& error = diagnostics.error("base/bad-yaml", place, "this is not YAML: " + trouble.msg);
  for (const Wording& wording : kWordings) {
    if (trouble.msg != wording.library) continue;
    error.message = wording.message;
    error.help = wording.help;
  }
  if (const auto opened = last_unclosed(source)) error.notes.push_back(*opened);
}

bool parse(const Source& source, TreeBuilder& tree, Diagnostics& diagnostics) {
  std::istringstream stream(source->text);
  Events events(tree);
  try {
    YAML::Parser parser(stream);
    // Once more than once, so that a second document is seen; never in a loop.
    if (parser.HandleNextDocument(events)) parser.HandleNextDocument(events);
    return true;
  } catch (const Abandoned&) {
    return false;
  } catch (const YAML::Exception& trouble) {
    report_trouble(source, tree, trouble, diagnostics);
    return false;
  }
}

}  // namespace

YamlNode read_yaml(const Source& source, Diagnostics& diagnostics) {
  if (source == nullptr) return {};
  if (source->text.size() > kLargestFile) {
    diagnostics.error("base/file-too-large", {source, 1, 1}, "the file is larger than 16 MB").help =
        "split it into several files";
    return {};
  }
  if (!is_clean_text(source, diagnostics)) return {};
  TreeBuilder tree(source, diagnostics);
  if (!parse(source, tree, diagnostics)) return {};
  YamlNode root = tree.take_root();
  if (root.kind != YamlNode::Kind::null) return root;
  if (!tree.has_refused())
    diagnostics.error("base/empty-file", {source, 1, 1}, "the file says nothing").help =
        "start from an example: teetally init FOLDER writes some";
  return {};
}

}  // namespace teetally
