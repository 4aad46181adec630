#pragma once
// The suppliers' catalogs of this run. Large ones that were read before come from the store; one that was not is put
// there. A store that cannot be used for that is no failure: the files are read all the same.
#include "teetally/catalog.h"
#include "tool/session.h"

namespace teetally {

std::vector<Catalog> read_suppliers(Session& session, const std::vector<std::string>& paths,
                                    const Vocabulary& vocabulary);

// The parts in the store join as those of a list would; an empty stock adds nobody.
void add_stock(Session& session, std::vector<Catalog>& catalogs);

// SHA-256 of the catalog's file; "-" for what is at hand, which is no file of a supplier.
std::string content_of(const Catalog& catalog);

}  // namespace teetally
