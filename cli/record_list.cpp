// record list, missing and export: the applications of a site or of the whole book.
#include <iostream>
#include <memory>

#include "record_command.hpp"

namespace ashtriage::cli {

namespace {

struct ListOptions {
    std::string site;
    std::string policy{treat::RecordPolicies::strictest_key};
    bool all = false;
    bool with_names = false;
};

std::vector<present::ListedApplication> listed(const Options& options, const ListOptions& asked) {
    const RecordRules rules = load_record_rules(options);
    const auto book = book::Book::open(options.book_path(), book::Mode::read_only);
    return listed_applications(book, rules, asked.policy, asked.site, options.date());
}

present::CustomerNames names(const ListOptions& asked) {
    return asked.with_names ? present::CustomerNames::included : present::CustomerNames::left_out;
}

void print_data(const Options& options, const ListOptions& asked,
                const std::vector<present::ListedApplication>& applications) {
    if (options.output_format() == Format::json) {
        std::cout << present::applications_json(applications, names(asked)).dump(2) << "\n";
    } else {
        std::cout << present::applications_csv(applications, names(asked));
    }
}

ExitCode list(const Options& options, const ListOptions& asked) {
    const auto applications = listed(options, asked);
    if (options.output_format() == Format::text) {
        std::cout << present::applications_text(applications, asked.all);
    } else {
        print_data(options, asked, applications);
    }
    return ExitCode::done;
}

ExitCode missing(const Options& options, const ListOptions& asked) {
    const auto applications = listed(options, asked);
    if (options.output_format() == Format::text) {
        const treat::RecordPolicies policies = load_record_rules(options).policies;
        std::cout << present::missing_text(applications, policies.policy(asked.policy),
                                           options.date());
    } else {
        print_data(options, asked, applications);
    }
    return present::any_overdue(applications) ? ExitCode::finding : ExitCode::done;
}

ExitCode all_data(const Options& options, const ListOptions& asked) {
    print_data(options, asked, listed(options, asked));
    return ExitCode::done;
}

CLI::App& add_listing(CLI::App& record, const std::string& name, const std::string& about,
                      const std::shared_ptr<ListOptions>& asked) {
    CLI::App* command = record.add_subcommand(name, about);
    command->fallthrough();
    command->add_option("--site", asked->site, "Only this site; without it, the whole book");
    return *command;
}

}  // namespace

void add_record_list(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<ListOptions>();
    CLI::App& command = add_listing(record, "list", "The applications that are recorded", asked);
    add_policy_option(command, asked->policy);
    command.add_flag("--all", asked->all, "Superseded and withdrawn records too");
    command.callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return list(options, *asked); };
    });
}

void add_record_missing(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<ListOptions>();
    CLI::App& command = add_listing(
        record, "missing", "What is still missing in records, and by when it is due", asked);
    add_policy_option(command, asked->policy);
    command.callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return missing(options, *asked); };
    });
}

void add_record_export(CLI::App& record, Selection& selection) {
    const auto asked = std::make_shared<ListOptions>();
    CLI::App& command =
        add_listing(record, "export",
                    "Every entry of every record, superseded ones too, as CSV or JSON", asked);
    add_policy_option(command, asked->policy);
    command.add_flag("--with-names", asked->with_names,
                     "Names and addresses of customers too; without it they stay in the book");
    command.callback([&selection, asked] {
        selection.action = [asked](const Options& options) { return all_data(options, *asked); };
    });
}

}  // namespace ashtriage::cli
