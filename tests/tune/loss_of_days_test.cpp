// podrate tune --loss-prior, and what it says.
#include "tune/loss_of_days.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <pugixml.hpp>

#include "report/tuning/loss_prior_html.hpp"
#include "report/tuning/loss_prior_words.hpp"
#include "support/program.hpp"
#include "tune/tune_days.hpp"

using namespace podrate;
using namespace podrate::sim;
using Catch::Contains;
using podrate::test::ProgramRun;
using podrate::test::run_podrate;
using podrate::test::TempFolder;
using podrate::test::text_of;

namespace {

LogRow counted(double hits) {
    LogRow row;
    row.has[static_cast<int>(Column::loss_hits)] = true;
    row.value[static_cast<int>(Column::loss_hits)] = hits;
    return row;
}

// Three machines on six days at 3 %; one day of one of them at 12 %.
LossOfDays with_outlier() {
    LossOfDays told;
    told.days = 6;
    told.machines = 3;
    std::vector<LossReading> readings;
    for (int d = 0; d < 6; ++d) {
        for (int m = 0; m < 3; ++m) {
            const double off = 0.08 * ((d + 2 * m) % 3 - 1);
            const double share = d == 4 && m == 1 ? 0.12 : 0.03;
            readings.push_back({"day <" + std::to_string(d) + ">", "viner_" + std::to_string(m),
                                LossQuantity::drum, std::log(share) + off, 0.1, 0.0});
        }
    }
    told.fit = fit_loss(std::move(readings));
    return told;
}

// Half an hour of a machine, with trays that say some 13 % of 5.5 t/ha lie on the ground.
std::string day_with_trays(const TempFolder& folder, const std::string& name, int seed) {
    const std::filesystem::path day = podrate::test::write_tune_day(folder, name, seed, 0.5);
    std::string trays = "unix_s,machine,count,area_m2,thousand_pea_g\n";
    for (int i = 1; i < 6; ++i)
        trays += std::to_string(1751428800 + 300 * i) + ",viner_1," + std::to_string(70 + 5 * i + seed) +
                 ",0.5,420\n";
    podrate::test::write_text(day / "tray_checks.csv", trays);
    return day.string();
}

}  // namespace

TEST_CASE("Hits are what a counter rises by; one that is set back begins anew") {
    HitSum sum;
    for (const double count : {500.0, 520.0, 520.0, 3.0, 10.0}) sum.on_row(counted(count), Estimate());
    sum.on_row(LogRow(), Estimate());
    sum.on_row(counted(11.0), Estimate());
    CHECK(sum.hits() == 28.0);
}

TEST_CASE("The page names an outlier by word and shape, and is well formed") {
    const LossOfDays told = with_outlier();
    const std::vector<std::string> outliers = loss_prior_outliers(told.fit);
    REQUIRE(outliers.size() == 1);
    CHECK_THAT(outliers[0], Contains("viner_1, day <4>") && Contains("above"));
    CHECK(loss_prior_warnings(told).size() == 2);  // of picking and the sensor nothing is known
    const std::string html = loss_prior_html(told);
    CHECK_THAT(html, Contains("viner_1, day &lt;4&gt;") && Contains(">outlier</text>") &&
                         Contains("<path class=\"far-mark\"") && !Contains("day <4>"));
    std::size_t pictures = 0;
    for (std::size_t at = html.find("<svg"); at != std::string::npos; at = html.find("<svg", at + 1)) {
        const std::size_t end = html.find("</svg>", at) + 6;
        pugi::xml_document picture;
        CHECK(picture.load_string(html.substr(at, end - at).c_str()));
        ++pictures;
    }
    CHECK(pictures == 5);  // and four in the legend
    CHECK(html.find("nan") == std::string::npos);
    CHECK_THAT(loss_prior_summary(told), Contains("think beforehand of 3.") &&
                                             Contains("told so far: 3.5 %") &&
                                             Contains("6 days and 3 machines (18 machine days)"));
}

TEST_CASE("Too few machines or days are said in words") {
    LossOfDays told = with_outlier();
    std::vector<LossReading> few(told.fit.readings.begin(), told.fit.readings.begin() + 5);
    told.fit = fit_loss(few);
    CHECK_THAT(loss_prior_warnings(told)[0], Contains("only 2 days and 3 machines"));
    told.fit = fit_loss({few[0]});
    CHECK_THAT(loss_prior_warnings(told)[0], Contains("but one machine day"));
    CHECK_THAT(loss_prior_summary(told), Contains("too little"));
    CHECK_THAT(loss_prior_html(told), Contains("too little") && !Contains("<svg"));
}

TEST_CASE(
    "podrate tune --loss-prior leaves table, page and a parameter set, the same for one thread and two") {
    const TempFolder folder;
    const std::string one = day_with_trays(folder, "one", 1);
    const std::string two = day_with_trays(folder, "two", 4);
    const std::string three = day_with_trays(folder, "three", 3);
    const auto out = [&](const char* name) { return (folder / name).string(); };
    const ProgramRun run =
        run_podrate({"tune", one, two, three, "--loss-prior", "--out", out("a"), "--jobs", "1"});
    INFO(run.err);
    REQUIRE(run.exit_code == 0);
    CHECK_THAT(run.out, Contains("think beforehand of") && Contains("3 days and 1 machine"));
    const std::string csv = text_of(folder / "a" / "loss_prior.csv");
    CHECK_THAT(csv, Contains("day,machine,quantity,value") && Contains("\n,,drum_loss_share,") &&
                        Contains("viner_1,hits_per_kg,"));
    CHECK_THAT(text_of(folder / "a" / "loss_prior.html"), Contains("<b>Mind:</b>") && Contains("</html>"));
    const std::string set = (folder / "a" / "loss_prior.toml").string();
    const ProgramRun check = run_podrate({"parameters", "--check", set});
    CHECK(check.exit_code == 0);
    CHECK_THAT(check.out, Contains("from 3 days of 1 machine"));
    CHECK(run_podrate({"replay", one, "--parameters", set, "--out", out("replayed"), "--quiet"}).exit_code ==
          0);
    REQUIRE(
        run_podrate({"tune", one, two, three, "--loss-prior", "--out", out("b"), "--jobs", "2", "--quiet"})
            .exit_code == 0);
    CHECK(text_of(folder / "b" / "loss_prior.csv") == csv);
    CHECK(text_of(folder / "b" / "loss_prior.html") == text_of(folder / "a" / "loss_prior.html"));
    // From there on, with its history.
    REQUIRE(run_podrate({"tune", one, two, three, "--loss-prior", "--out", out("c"), "--parameters", set})
                .exit_code == 0);
    CHECK_THAT(run_podrate({"parameters", "--check", (folder / "c" / "loss_prior.toml").string()}).out,
               Contains("from loss_prior"));
    // What another day teaches too little for is no longer said to be what these days teach.
    const ProgramRun too_little = run_podrate({"tune", one, "--loss-prior", "--out", out("c")});
    CHECK(too_little.exit_code == 1);
    CHECK_THAT(too_little.err, Contains("loss_prior.toml.earlier"));
    CHECK_FALSE(std::filesystem::exists(folder / "c" / "loss_prior.toml"));
    CHECK(run_podrate({"parameters", "--check", (folder / "c" / "loss_prior.toml.earlier").string()})
              .exit_code == 0);
    // Bad input.
    CHECK(run_podrate({"tune", one, "--out", out("d")}).exit_code == 2);
    CHECK(run_podrate({"tune", one, "--out", out("d"), "--loss-prior", "--sweep", "loss_high_on_s=1"})
              .exit_code == 2);
    CHECK(run_podrate({"tune", out("nowhere"), "--out", out("d"), "--loss-prior"}).exit_code == 2);
    const ProgramRun partly =
        run_podrate({"tune", one, two, out("nowhere"), "--loss-prior", "--out", out("d")});
    CHECK(partly.exit_code == 1);
    CHECK_THAT(partly.err, Contains("nowhere"));
}

TEST_CASE("What reaches beyond the whole crop teaches nothing and goes into no set") {
    const auto fit_of = [](double other) {
        std::vector<LossReading> readings;
        for (const double day : {1.0, 1.2, 0.9}) {
            readings.push_back({"day", "viner_1", LossQuantity::drum, std::log(0.03 * day), 0.1, 0.0});
            readings.push_back({"day", "viner_2", LossQuantity::drum, std::log(0.04 * day), 0.1, 0.0});
            readings.push_back({"day", "viner_3", LossQuantity::drum, std::log(other * day), 0.1, 0.0});
            readings.push_back({"day", "viner_4", LossQuantity::drum, std::log(0.03 * day), 0.1, 0.0});
        }
        return fit_loss(readings);
    };
    LossOfDays told;
    told.fit = fit_of(0.9);
    REQUIRE(told.fit.priors.size() == 1);
    CHECK(told.fit.priors[0].high() > 1.0);
    CHECK_FALSE(told.fit.priors[0].teaches());
    CHECK(with_prior({}, told.fit).drum_loss_share == Parameters().drum_loss_share);
    const std::string said = loss_prior_summary(told);
    CHECK(said.find("to over 100 %, which says nothing of the next machine") != std::string::npos);
    CHECK(loss_prior_note(told).find("rests on") == std::string::npos);
    CHECK_THAT(loss_prior_warnings(told)[0], Contains("hardly known. Wait for"));
    CHECK_THAT(loss_prior_html(told), Contains(">50</text>") && !Contains(">300</text>"));
    told.fit = fit_of(0.035);
    CHECK(told.fit.priors[0].teaches());
    CHECK(with_prior({}, told.fit).drum_loss_share != Parameters().drum_loss_share);
    CHECK(loss_prior_summary(told).find("think beforehand of") != std::string::npos);
}
