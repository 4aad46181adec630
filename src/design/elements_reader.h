#pragma once
// The elements of a design file: each reader takes one list or mapping of the file and adds what it holds to the
// Site. Names are read as they are; whether they exist is a matter of design_checks.
#include <map>
#include <string>
#include <vector>

#include "design/copies.h"
#include "teetally/design.h"

namespace teetally::design {

// The names that `repeat` made of one name; elements that stand alone are their own family.
using Families = std::map<std::string, std::vector<std::string>>;

// What every reader needs beside its node.
struct Reading {
  const BareUnits& bare;
  const Vocabulary& vocabulary;
  Diagnostics& diagnostics;
  Families& families;
};

void read_source_and_existing(const YamlNode& node, const Reading& reading, Site& site);
void read_points(const YamlNode& node, const Reading& reading, Site& site);
void read_lines(Fields& root, const Reading& reading, Site& site);
void read_beds(Fields& root, const Reading& reading, Site& site);
void read_containers(Fields& root, const Reading& reading, Site& site);
void read_tape_rows(Fields& root, const Reading& reading, Site& site);
void read_sprays(Fields& root, const Reading& reading, Site& site);

// Call it last: a member that names a family is spelt out.
void read_zones(const YamlNode& node, const Reading& reading, Site& site);

// What several element readers share.
// "bed 'herbs'", or "a bed" while it has no name: for messages.
std::string element_words(std::string_view kind, const std::string& name);
std::string read_name(Fields& fields, const Copy& copy, const Reading& reading);
std::string read_size(Fields& fields, std::string_view key);  // "auto" and absence are empty
DripTubing read_drip_tubing(const YamlNode& node, bool tape, const Reading& reading);
OutletSpec read_outlet(const YamlNode& node, std::string kind, const Reading& reading);
std::vector<PlacedPoint> read_positions(Fields& fields, std::string_view key, const Reading& reading);
FeedAt read_feed_at(Fields& fields);

}  // namespace teetally::design
