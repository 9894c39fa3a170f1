// Parameters by name and number.
#include "podrate/parameters.hpp"

#include "podrate/c_api/parameter_block.hpp"
#include "podrate/podrate.h"

namespace podrate::c_api {

static_assert(PODRATE_PARAMETER_COUNT == kParameterCount, "one table, two readings");

Parameters parameters_of(const podrate_parameters& block) {
    Parameters parameters;
    for (std::size_t i = 0; i < kParameterCount; ++i)
        parameters.*kParameterTable[i].member = static_cast<Real>(block.value[i]);
    return parameters;
}

namespace {

bool inside(const ParameterInfo& info, float value) {
    return value >= static_cast<float>(info.low) && value <= static_cast<float>(info.high);
}

bool same(const char* a, const char* b) {
    while (*a != '\0' && *a == *b) {
        ++a;
        ++b;
    }
    return *a == *b;
}

}  // namespace
}  // namespace podrate::c_api

using podrate::kParameterCount;
using podrate::kParameterTable;

extern "C" {

podrate_status podrate_default_parameters(podrate_parameters* parameters) {
    if (parameters == nullptr) return PODRATE_NULL_POINTER;
    for (std::size_t i = 0; i < kParameterCount; ++i)
        parameters->value[i] = static_cast<float>(kParameterTable[i].value);
    return PODRATE_OK;
}

podrate_status podrate_describe_parameter(uint32_t index, podrate_parameter_info* info) {
    if (info == nullptr) return PODRATE_NULL_POINTER;
    if (index >= kParameterCount) return PODRATE_NO_SUCH;
    const podrate::ParameterInfo& row = kParameterTable[index];
    info->name = row.name;
    info->unit = row.unit;
    info->low = static_cast<float>(row.low);
    info->high = static_cast<float>(row.high);
    info->standard = static_cast<float>(row.value);
    info->decimals = row.decimals;
    return PODRATE_OK;
}

podrate_status podrate_find_parameter(const char* name, uint32_t* index) {
    if (name == nullptr || index == nullptr) return PODRATE_NULL_POINTER;
    for (uint32_t i = 0; i < kParameterCount; ++i) {
        if (!podrate::c_api::same(kParameterTable[i].name, name)) continue;
        *index = i;
        return PODRATE_OK;
    }
    return PODRATE_NO_SUCH;
}

podrate_status podrate_get_parameter(const podrate_parameters* parameters, uint32_t index, float* value) {
    if (parameters == nullptr || value == nullptr) return PODRATE_NULL_POINTER;
    if (index >= kParameterCount) return PODRATE_NO_SUCH;
    *value = parameters->value[index];
    return PODRATE_OK;
}

podrate_status podrate_set_parameter(podrate_parameters* parameters, uint32_t index, float value) {
    if (parameters == nullptr) return PODRATE_NULL_POINTER;
    if (index >= kParameterCount) return PODRATE_NO_SUCH;
    if (!podrate::c_api::inside(kParameterTable[index], value)) return PODRATE_BAD_PARAMETER;
    parameters->value[index] = value;
    return PODRATE_OK;
}

podrate_status podrate_check_parameters(const podrate_parameters* parameters, uint32_t* index) {
    if (parameters == nullptr) return PODRATE_NULL_POINTER;
    for (uint32_t i = 0; i < kParameterCount; ++i) {
        if (podrate::c_api::inside(kParameterTable[i], parameters->value[i])) continue;
        if (index != nullptr) *index = i;
        return PODRATE_BAD_PARAMETER;
    }
    return PODRATE_OK;
}

}  // extern "C"
