#include "report/tuning/loss_prior_html.hpp"

#include "log/number.hpp"
#include "podrate/version.hpp"
#include "report/html/long_table.hpp"
#include "report/html/markup.hpp"
#include "report/html/style.hpp"
#include "report/tuning/loss_prior_chart.hpp"
#include "report/tuning/loss_prior_words.hpp"

namespace podrate::sim {
namespace {

std::string said(const std::string& text, const char* look) {
    return std::string("<p class=\"") + look + "\">" + escaped(text) + "</p>\n";
}

std::string minded(const std::string& text) {
    return "<p class=\"bad\"><b>Mind:</b> " + escaped(text) + "</p>\n";
}

std::string readings_table(const LossFit& fit, LossQuantity quantity) {
    std::vector<std::vector<std::string>> rows;
    for (const LossReading& reading : fit.readings) {
        if (reading.quantity != quantity) continue;
        rows.push_back({reading.machine, reading.day,
                        loss_range_text(quantity, reading.ln_value, reading.ln_sd),
                        fixed(reading.residual, 1), reading.outlier() ? "outlier" : ""});
    }
    return long_table_html(
        {"machine", "day", "by itself, 9 times in 10", "from all others, standard deviations", ""}, rows,
        {0, 1, 4});
}

std::string levels_table(const LossPrior& prior) {
    std::vector<std::vector<std::string>> rows;
    const NestedEffects& effects = prior.effects;
    for (std::size_t m = 0; m < prior.machines.size(); ++m)
        rows.push_back(
            {prior.machines[m], loss_range_text(prior.quantity, effects.mean + effects.machines[m].offset,
                                                effects.machines[m].level_sd)});
    rows.push_back({"not seen yet", loss_range_text(prior.quantity, effects.mean, effects.new_sd())});
    return long_table_html({"machine", "level, 9 times in 10"}, rows, {0});
}

constexpr const char* kHowItIsFound = R"(<h2>How it is found</h2>
<p>Of each machine's day what was thought beforehand is taken off what the estimator believed at its end; a day that then says hardly anything has no row. Logarithms are normal: a middle, a machine's offset, a day's, and the day's own doubt.
How far machines and days differ is found by restricted maximum likelihood, kept above zero where days are few (Chung and others 2013), the offsets by best linear prediction (Robinson 1991). An outlier lies more than 3 standard deviations from what the rest tells of its machine.</p>
<p>Hits for a kilogram have no parameter: the estimator finds them anew each day. They show a sensor that has changed.</p>
)";

}  // namespace

std::string loss_prior_html(const LossOfDays& told) {
    std::string html = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n";
    html +=
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<title>Loss beforehand</title>\n<style>";
    html += std::string(kStyle) + kLossPriorStyle +
            "</style></head>\n<body><main>\n<h1>What to think of the loss beforehand</h1>\n";
    html += said(loss_prior_summary(told), "summary");
    for (const std::string& sentence : loss_prior_warnings(told)) html += minded(sentence);
    for (const std::string& sentence : loss_prior_outliers(told.fit)) html += minded(sentence);
    for (const LossPrior& prior : told.fit.priors) {
        std::string heading = words_for(prior.quantity);
        heading[0] = static_cast<char>(heading[0] - 'a' + 'A');
        html += "<h2>" + escaped(heading) + "</h2>\n" + loss_prior_chart_svg(told.fit, prior) +
                loss_prior_legend_html() + readings_table(told.fit, prior.quantity) + levels_table(prior);
    }
    html += kHowItIsFound;
    html += std::string("<p class=\"quiet\">podrate ") + kVersion + "</p>\n</main></body></html>\n";
    return html;
}

}  // namespace podrate::sim
