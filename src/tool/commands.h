#pragma once
// One function per command, each in a file of its name. Whatever goes wrong with the user's input is left in
// the session's diagnostics; the answer says how the program ends and what it prints.
#include "tool/session.h"

namespace teetally {

Answer run_init(Session& session);
Answer run_check(Session& session);
Answer run_run_card(Session& session);
Answer run_takeoff(Session& session);
Answer run_buy(Session& session);
Answer run_verify(Session& session);
Answer run_pool(Session& session);
Answer run_compare(Session& session);
Answer run_explain(Session& session);
Answer run_plan(Session& session);
Answer run_catalog_check(Session& session);
Answer run_catalog_record(Session& session);
Answer run_catalog_import(Session& session);
Answer run_catalog_history(Session& session);
Answer run_store_backup(Session& session);
Answer run_quote(Session& session);
Answer run_templates_write(Session& session);
Answer run_templates_check(Session& session);
Answer run_quote_list(Session& session);
Answer run_quote_show(Session& session);
Answer run_quote_again(Session& session);
Answer run_quote_change(Session& session);
Answer run_quote_accept(Session& session);
Answer run_quote_withdraw(Session& session);
Answer run_stock_list(Session& session);
Answer run_stock_add(Session& session);
Answer run_stock_receive(Session& session);
Answer run_stock_use(Session& session);
Answer run_stock_count(Session& session);
Answer run_stock_adjust(Session& session);
Answer run_ledger_list(Session& session);
Answer run_ledger_show(Session& session);
Answer run_ledger_pay(Session& session);
Answer run_ledger_refund(Session& session);
Answer run_ledger_cancel(Session& session);
Answer run_help(Session& session);
Answer run_version(Session& session);

// The result in the form that was asked for; text ends with what to do next, if anything.
std::string in_form(const Session& session, const std::function<std::string()>& text,
                    const std::function<Json()>& document, const std::function<std::string()>& csv);
std::string in_form(const Session& session, const std::function<std::string()>& text,
                    const std::function<Json()>& document, const std::function<std::string()>& csv,
                    const std::function<std::string()>& html);
// What is no workbook is shown on the screen instead of going into its file.
void show_instead(Session& session);
// "teetally buy FILE --catalogs PATH..." with the limits the user gave.
std::string buy_words(const Session& session);
std::string next_steps(const std::vector<std::string>& commands);

}  // namespace teetally
