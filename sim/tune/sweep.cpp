#include "tune/sweep.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>

#include "log/csv_record.hpp"
#include "log/number.hpp"
#include "log/problem.hpp"
#include "tune/alarm_trace.hpp"

namespace podrate::sim {
namespace {

constexpr std::size_t kMostValues = 1000;

[[noreturn]] void refuse_sweep(const std::string& text, const std::string& reason, const std::string& mend) {
    throw RefusedInput({"--sweep", 0, "'" + shortened(text) + "' " + reason, mend});
}

std::vector<std::string> split(const std::string& text, char at) {
    std::vector<std::string> parts(1);
    for (const char c : text) {
        if (c == at) {
            parts.emplace_back();
        } else {
            parts.back() += c;
        }
    }
    return parts;
}

double number_in(const std::string& text, const std::string& whole) {
    const ParsedNumber number = parse_number(text);
    if (number.fault != NumberFault::none)
        refuse_sweep(whole, "holds '" + shortened(text) + "', which is no number",
                     "write NAME=LOW:HIGH:COUNT or NAME=A,B,C");
    return number.value;
}

std::vector<double> range_of(const std::vector<std::string>& parts, const std::string& whole) {
    const double low = number_in(parts[0], whole);
    const double high = number_in(parts[1], whole);
    const double count = number_in(parts[2], whole);
    if (!(count >= 2.0 && count <= static_cast<double>(kMostValues)) || count != std::floor(count))
        refuse_sweep(whole, "has a count outside 2 to " + std::to_string(kMostValues),
                     "NAME=LOW:HIGH:COUNT takes COUNT values from LOW to HIGH, both included");
    if (!(low < high)) refuse_sweep(whole, "does not rise", "give the lower end first");
    std::vector<double> values;
    const auto steps = static_cast<int>(count) - 1;
    for (int i = 0; i <= steps; ++i) values.push_back(i == steps ? high : low + (high - low) * i / steps);
    return values;
}

}  // namespace

Swept parse_swept(const std::string& text) {
    const std::size_t equals = text.find('=');
    const std::string name = text.substr(0, equals);
    Swept swept;
    for (const ParameterInfo& info : kParameterTable) {
        if (name == info.name) swept.parameter = &info;
    }
    if (swept.parameter == nullptr)
        refuse_sweep(text, "names no parameter",
                     "`podrate parameters` lists them; write NAME=LOW:HIGH:COUNT");
    if (equals == std::string::npos)
        refuse_sweep(text, "tells no values", "write NAME=LOW:HIGH:COUNT or NAME=A,B,C");
    const std::string told = text.substr(equals + 1);
    const std::vector<std::string> parts = split(told, ':');
    if (parts.size() == 3) {
        swept.values = range_of(parts, text);
    } else if (parts.size() == 1) {
        for (const std::string& part : split(told, ',')) swept.values.push_back(number_in(part, text));
    } else {
        refuse_sweep(text, "is neither a range nor a list", "write NAME=LOW:HIGH:COUNT or NAME=A,B,C");
    }
    const ParameterInfo& p = *swept.parameter;
    for (const double value : swept.values) {
        if (value >= p.low && value <= p.high) continue;
        refuse_sweep(text, "leads to " + shown(value) + ", out of range",
                     std::string(p.name) + " is " + fixed(p.low, p.decimals) + " to " +
                         fixed(p.high, p.decimals) + " " + p.unit);
    }
    const std::string unit = p.unit;
    if (unit == "0-1" || unit == "0-2") {
        for (const double value : swept.values) {
            if (value == std::floor(value)) continue;
            refuse_sweep(text, "leads to " + shown(value) + ", no whole number",
                         "list those of " + unit + " to try, as NAME=0,1");
        }
    }
    for (double& value : swept.values) value = decimal_of(static_cast<Real>(value));
    std::vector<double> sorted = swept.values;
    std::sort(sorted.begin(), sorted.end());
    if (std::adjacent_find(sorted.begin(), sorted.end()) != sorted.end())
        refuse_sweep(text, "holds a value twice", "give each once");
    return swept;
}

std::vector<Swept> parse_sweep(const std::vector<std::string>& texts) {
    std::vector<Swept> sweep;
    for (const std::string& text : texts) {
        Swept swept = parse_swept(text);
        const auto same = [&](const Swept& other) { return other.parameter == swept.parameter; };
        if (std::any_of(sweep.begin(), sweep.end(), same))
            refuse_sweep(text, "sweeps a parameter again", "give all its values in one --sweep");
        sweep.push_back(std::move(swept));
    }
    return sweep;
}

std::vector<TuneSetting> grid_of(const std::vector<Swept>& sweep) {
    std::size_t count = 1;
    for (const Swept& swept : sweep) {
        count *= swept.values.size();
        if (count <= kMostSettings) continue;
        throw RefusedInput(
            {"--sweep", 0, "makes more than " + std::to_string(kMostSettings) + " settings, the most allowed",
             "take fewer values of each, sweep one alarm at a time, or use --search"});
    }
    std::vector<TuneSetting> grid(1);
    for (const Swept& swept : sweep) {
        std::vector<TuneSetting> longer;
        for (const TuneSetting& setting : grid) {
            for (const double value : swept.values) {
                longer.push_back(setting);
                longer.back().values.push_back(value);
            }
        }
        grid = std::move(longer);
    }
    return grid;
}

Parameters with_setting(const Parameters& own, const std::vector<Swept>& sweep, const TuneSetting& setting) {
    Parameters parameters = own;
    for (std::size_t i = 0; i < sweep.size(); ++i)
        parameters.*sweep[i].parameter->member = static_cast<Real>(setting.values[i]);
    return parameters;
}

std::string estimator_key(const std::vector<Swept>& sweep, const TuneSetting& setting) {
    std::string key;
    for (std::size_t i = 0; i < sweep.size(); ++i) {
        if (touches_alarms_alone(*sweep[i].parameter)) continue;
        key += std::string(sweep[i].parameter->name) + '=' + exact_text(setting.values[i]) + ' ';
    }
    return key;
}

double decimal_of(Real value) {
    char text[64];
    const std::to_chars_result end = std::to_chars(text, text + sizeof text, value);
    double decimal = 0.0;
    std::from_chars(text, end.ptr, decimal);
    return decimal;
}

std::string exact_text(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.17g", value);
    return text;
}

std::string value_text(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.7g", value);
    return text;
}

}  // namespace podrate::sim
