// The applications of a book, listed and exported.
#pragma once

#include <string>
#include <vector>

#include "book/corrections.hpp"
#include "measure/date.hpp"
#include "present/recommendation_json.hpp"
#include "treat/record_policy.hpp"
#include "treat/site_history.hpp"

namespace ashtriage::present {

// An application of a site with what a record policy still wants of it.
struct ListedApplication {
    std::string site;  // by its name
    book::RecordedApplication filed;
    std::vector<treat::MissingFields> missing;
    std::vector<treat::Reminder> reminders;  // on the day asked about
};

// Whether something that stands is overdue on the day.
bool any_overdue(const std::vector<ListedApplication>& applications);

// A line for each application that stands; `all`: superseded and withdrawn ones too.
std::string applications_text(const std::vector<ListedApplication>& applications, bool all);

// What is still missing and what is due, application by application.
std::string missing_text(const std::vector<ListedApplication>& applications,
                         const treat::RecordPolicy& policy, const measure::Date& as_of);

// Names and addresses of customers identify people and leave the book only when asked for.
enum class CustomerNames { left_out, included };

// A row for each application, every entry of the record in a column of its own.
std::string applications_csv(const std::vector<ListedApplication>& applications,
                             CustomerNames names);
Json applications_json(const std::vector<ListedApplication>& applications, CustomerNames names);

}  // namespace ashtriage::present
