#include "present/mix_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "measure/units.hpp"
#include "present/at_the_tree.hpp"
#include "present/emergency.hpp"
#include "present/mix_page_template.hpp"
#include "present/template_values.hpp"
#include "present/text_layout.hpp"
#include "present/work_listing.hpp"
#include "treat/amount_beside.hpp"

namespace ashtriage::present {

namespace units = measure::units;
using ctemplate::TemplateDictionary;

namespace {

constexpr std::string_view spill_kit =
    "Spill kit: absorbent, shovel, strong bags, spare gloves, soap, clean water, the labels. A "
    "spill: "
    "keep people away, stop it spreading, keep it out of drains, call for help.";
constexpr std::string_view label_first =
    "The label in hand decides. This sheet is arithmetic from what was typed in.";

std::string water_line(const MixSheet& sheet) {
    return "Water from: " + (sheet.asked.water_from.empty() ? std::string("____________________")
                                                            : sheet.asked.water_from);
}

std::string share_words(const plan::LoadShare& share, const plan::TankLoad& load,
                        const CardMix& mix) {
    const bool alone = load.shares.size() == 1;
    std::string words = "for " + mix.trees[share.tree].label;
    if (share.parts > 1) words += fmt::format(", part {} of {}", share.part, share.parts);
    return words + ": " + (alone ? "all of it, " : "") +
           share.finished.with_unit(units::us_fluid_ounce, 1) + " (" +
           share.finished.with_unit(units::litre, 2) + ") of the mix";
}

// Which of the tanks a tree gets its mix from. What it takes is stated for a mix of its own.
std::vector<std::string> tank_lines(const MixSheet& sheet, const PlannedTree& planned) {
    std::vector<std::string> lines;
    for (const CardMix& mix : sheet.cards) {
        if (mix.card.key != planned.card.key) continue;
        for (std::size_t i = 0; i < mix.loads.size(); ++i) {
            for (const plan::LoadShare& share : mix.loads[i].shares) {
                if (mix.trees[share.tree].label != planned.tree.label) continue;
                lines.push_back(fmt::format("from tank {} of {}: {}{} ({})", i + 1,
                                            mix.loads.size(),
                                            mix.loads[i].shares.size() == 1 ? "all of it, " : "",
                                            share.finished.with_unit(units::us_fluid_ounce, 1),
                                            share.finished.with_unit(units::litre, 2)));
            }
        }
    }
    return lines;
}

treat::StatedAmount device_for(const treat::LabelCard& card, treat::Part part) {
    switch (part) {
        case treat::Part::surfactant:
            return card.measure_with.surfactant.value();
        case treat::Part::carrier:
            return card.measure_with.carrier.value();
        case treat::Part::product:
            break;
    }
    return card.measure_with.product;
}

// In the unit in which it is measured out, with the twin that a dose of as much has.
std::string in_marks(const treat::Amount& amount, treat::Part part,
                     const treat::StatedAmount& device) {
    const std::int64_t mark = treat::marks(amount, device, measure::Rounding::up);
    const auto of_twin =
        part == treat::Part::carrier ? measure::Rounding::up : measure::Rounding::down;
    return treat::mark_text(mark, device) + " (" + treat::twin_text(mark, device, of_twin) + ")";
}

std::string carried_words(const plan::Carried& carried, const treat::LabelCard& card) {
    const treat::StatedAmount device = device_for(card, carried.part);
    std::string words = carried.what + ": " + in_marks(carried.planned, carried.part, device) +
                        ", with reserve " + in_marks(carried.with_reserve, carried.part, device);
    for (const plan::Containers& container : carried.containers) {
        words +=
            fmt::format("; open {} x {}", container.count, treat::mark_text(1, container.size));
    }
    if (carried.left_in_containers) {
        words += "; left in them if all goes as planned: " +
                 treat::beside(*carried.left_in_containers, device);
    }
    return words;
}

std::string says_text(const std::vector<LabelSays>& says, const std::string& indent) {
    std::string text;
    for (const LabelSays& each : says) {
        text += indent + each.heading + "\n";
        for (const std::string& line : each.lines) text += paragraph(line, indent + "  - ");
    }
    return text;
}

void add_says(TemplateDictionary& dictionary, const std::vector<LabelSays>& says) {
    for (const LabelSays& each : says) {
        TemplateDictionary& group = *dictionary.AddSectionDictionary("SAYS");
        set(group, "HEADING", each.heading);
        add_list(group, "LINES", "ITEM", each.lines);
    }
}

// What the trees of a tank take of it.
std::vector<std::string> shares_of(const plan::TankLoad& load, const CardMix& mix) {
    std::vector<std::string> lines;
    for (const plan::LoadShare& share : load.shares) lines.push_back(share_words(share, load, mix));
    if (load.shares.size() > 1) {
        lines.emplace_back(
            "Measured to the marks, a tank for several trees may hold a little less for each than "
            "they take by themselves, and never more.");
    }
    return lines;
}

// A part of so divided a mix that its measure has no mark for it.
std::vector<std::string> warnings_about(const plan::TankLoad& load) {
    std::vector<std::string> warnings;
    for (const treat::MeasuredAmount& amount : load.amounts) {
        const bool none =
            std::visit([](const auto& each) { return each.ticks() <= 0; }, amount.measured);
        if (!none || amount.part == treat::Part::carrier) continue;
        warnings.push_back(
            fmt::format("The {} for this tank, {}, is less than the smallest mark of "
                        "its measure: use a finer one, or a larger tank.",
                        amount.what, treat::plain_text(amount.exact)));
    }
    return warnings;
}

// The order of the card, or that it has none.
std::vector<std::string> mixing_order(const treat::LabelCard& card) {
    if (!card.mixing_order.empty()) return card.mixing_order;
    if (!card.mix) return {"Applied as it is: mix it with nothing unless the label says so."};
    return {"The card gives no order: follow the label, and keep the mix stirred."};
}

}  // namespace

MixSheet mix_sheet(const PlannedWork& work, const MixAsked& asked) {
    MixSheet sheet;
    sheet.site = work.site.name;
    sheet.on = work.on;
    sheet.asked = asked;
    sheet.left_out = work.left_out;
    for (const PlannedTree& planned : work.trees) {
        if (planned.ruled_out()) {
            sheet.left_out.push_back({planned.tree.label, stops_of(planned)});
            continue;
        }
        sheet.example = sheet.example || planned.card.example;
        sheet.trees.push_back(planned);
        auto mix = std::ranges::find_if(
            sheet.cards, [&](const CardMix& each) { return each.card.key == planned.card.key; });
        if (mix == sheet.cards.end()) {
            sheet.cards.push_back({planned.card, {}, {}, {}});
            mix = sheet.cards.end() - 1;
        }
        mix->trees.push_back({work.site.name, planned.tree.label, planned.dose});
    }
    for (CardMix& mix : sheet.cards) {
        mix.loads = plan::tank_loads(mix.card, mix.trees, asked.tank);
        mix.carried = plan::carried(mix.card, mix.trees, mix.loads, asked.reserve);
        for (const std::string& item : mix.card.protective_equipment) {
            if (std::ranges::find(sheet.wear, item) == sheet.wear.end()) sheet.wear.push_back(item);
        }
    }
    return sheet;
}

std::string mix_text(const MixSheet& sheet) {
    std::string text = paragraph(sheet.site + ", " + measure::long_text(sheet.on));
    if (sheet.example) {
        text += paragraph(
            "STOP: EXAMPLE CARDS. Nothing may be mixed or applied by this sheet; it shows how one "
            "looks.");
    }
    text += paragraph(label_first) + "\nWear, as the labels say\n";
    for (const std::string& item : sheet.wear) text += paragraph(item, "  - ");
    text += paragraph(spill_kit) + paragraph(emergency_numbers()) + paragraph(water_line(sheet));
    for (const CardMix& mix : sheet.cards) {
        text += "\n" + paragraph(mix.card.title + (mix.card.example ? "  [EXAMPLE CARD]" : ""));
        text += paragraph(product_words(mix.card));
        text += "Carry\n";
        for (const plan::Carried& carried : mix.carried) {
            text += paragraph(carried_words(carried, mix.card), "  - ");
        }
        text += "Mixing order\n";
        for (const std::string& step : mixing_order(mix.card)) text += paragraph(step, "  - ");
        for (std::size_t i = 0; i < mix.loads.size(); ++i) {
            const plan::TankLoad& load = mix.loads[i];
            text += paragraph(fmt::format("Tank {} of {}: {} ({})", i + 1, mix.loads.size(),
                                          load.finished.with_unit(units::us_gallon, 2),
                                          load.finished.with_unit(units::litre, 2)));
            for (const treat::MeasuredAmount& amount : load.amounts) {
                text +=
                    paragraph(amount.text + " (" + amount.twin + ")", "  " + amount.what + ": ");
            }
            for (const std::string& line : shares_of(load, mix)) text += paragraph(line, "  ");
            for (const std::string& warning : warnings_about(load)) {
                text += paragraph(warning, "  WARNING: ");
            }
        }
        text += says_text(label_for_the_day(mix.card), "");
    }
    for (const PlannedTree& planned : sheet.trees) {
        text += "\n" + paragraph("AT THE TREE  " + planned.tree.label +
                                 (planned.card.example ? "  [EXAMPLE CARD]" : ""));
        text += paragraph(identity_words(planned, sheet.on), "  ");
        text += paragraph(product_words(planned.card), "  With: ") + amounts_text(planned);
        for (const std::string& line : tank_lines(sheet, planned)) text += paragraph(line, "  ");
        for (const std::string& step : steps_at_the_tree(planned)) text += paragraph(step, "  * ");
        for (const std::string& item : planned.card.protective_equipment) {
            text += paragraph(item, "  Wear: ");
        }
        text += says_text(label_at_the_tree(planned.card), "  ");
    }
    if (!sheet.left_out.empty()) text += "\nNot treated\n";
    for (const LeftOut& out : sheet.left_out) text += paragraph(out.label + ": " + out.why, "  ");
    return text;
}

std::string mix_page(const MixSheet& sheet) {
    TemplateDictionary page("mix");
    set(page, "SITE", sheet.site);
    set(page, "DATE", measure::long_text(sheet.on));
    if (sheet.example) page.ShowSection("EXAMPLE");
    set(page, "LABEL_FIRST", label_first);
    set(page, "SPILL_KIT", spill_kit);
    set(page, "EMERGENCY", emergency_numbers());
    set(page, "WATER", water_line(sheet));
    add_list(page, "WEAR", "ITEM", sheet.wear);
    for (const CardMix& mix : sheet.cards) {
        TemplateDictionary& card = *page.AddSectionDictionary("CARD");
        set(card, "TITLE", mix.card.title);
        set(card, "PRODUCT", product_words(mix.card));
        add_says(card, label_for_the_day(mix.card));
        std::vector<std::string> carried;
        for (const plan::Carried& each : mix.carried) {
            carried.push_back(carried_words(each, mix.card));
        }
        add_list(card, "CARRY", "ITEM", carried);
        add_list(card, "ORDER", "ITEM", mixing_order(mix.card));
        for (std::size_t i = 0; i < mix.loads.size(); ++i) {
            const plan::TankLoad& load = mix.loads[i];
            TemplateDictionary& tank = *card.AddSectionDictionary("TANK");
            set(tank, "NUMBER", fmt::format("{} of {}", i + 1, mix.loads.size()));
            set(tank, "FINISHED",
                load.finished.with_unit(units::us_gallon, 2) + " (" +
                    load.finished.with_unit(units::litre, 2) + ")");
            for (const treat::MeasuredAmount& amount : load.amounts) {
                TemplateDictionary& part = *tank.AddSectionDictionary("PART");
                set(part, "WHAT", amount.what);
                set(part, "AMOUNT", amount.text);
                set(part, "TWIN", amount.twin);
            }
            std::vector<std::string> shares = shares_of(load, mix);
            for (const std::string& warning : warnings_about(load)) {
                shares.push_back("WARNING: " + warning);
            }
            add_list(tank, "SHARES", "ITEM", shares);
        }
    }
    for (const PlannedTree& planned : sheet.trees) {
        TemplateDictionary& tree = *page.AddSectionDictionary("TREE");
        set(tree, "LABEL", planned.tree.label);
        set(tree, "IDENTITY", identity_words(planned, sheet.on));
        set(tree, "PRODUCT", product_words(planned.card));
        add_says(tree, label_at_the_tree(planned.card));
        if (planned.card.example) tree.ShowSection("TREE_EXAMPLE");
        for (const treat::MeasuredAmount& amount : planned.dose.amounts) {
            TemplateDictionary& part = *tree.AddSectionDictionary("PART");
            set(part, "WHAT", amount.what);
            set(part, "AMOUNT", amount.text);
            set(part, "TWIN", amount.twin);
        }
        std::vector<std::string> lines = dose_lines(planned);
        std::ranges::move(tank_lines(sheet, planned), std::back_inserter(lines));
        add_list(tree, "DOSE", "ITEM", lines);
        add_list(tree, "STEPS", "ITEM", steps_at_the_tree(planned));
        add_list(tree, "TREE_WEAR", "ITEM", planned.card.protective_equipment);
        std::vector<std::string> warnings;
        for (const auto* findings : {&planned.dose.findings, &planned.findings}) {
            for (const treat::Finding& finding : *findings) {
                if (finding.severity == treat::Severity::warning &&
                    finding.id != treat::example_finding) {
                    warnings.push_back(finding.text);
                }
            }
        }
        add_list(tree, "WARNINGS", "ITEM", warnings);
    }
    std::vector<std::string> left_out;
    for (const LeftOut& out : sheet.left_out) left_out.push_back(out.label + ": " + out.why);
    add_list(page, "LEFT_OUT", "ITEM", left_out);
    return expanded("mix-page", mix_page_template, page);
}

}  // namespace ashtriage::present
