#pragma once
// A pooled order step by step. Each answers nothing where errors are among the diagnostics.
#include "teetally/quote/hand_out.h"
#include "teetally/render/round.h"
#include "tool/session.h"
#include "tool/templates.h"

namespace teetally {

// Everything up to what can be bought.
std::optional<PoolResult> gather_pool(Session& session);
// The order alone, without shares; it may have found nothing.
std::optional<PoolResult> buy_pool_order(Session& session);
// Bought, bought alone and shared out; the purchase may have found nothing.
std::optional<PoolResult> buy_pool(Session& session);
// The round of --round, which suits the order: no plot of it is unknown, and what was frozen is what it costs.
std::optional<Round> round_of(Session& session, const PoolResult& result);
// The paper of --paper, which is not the summary.
std::string pool_paper(Session& session, PoolResult& result, const Page& page, const OwnTemplates& own);

}  // namespace teetally
