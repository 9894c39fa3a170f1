// The numbers of a scenario's tables: key, allowed range, and the member that holds it.
#pragma once

#include "synth/scenario/scenario.hpp"

namespace podrate::sim {

template <class T>
struct NumberKey {
    const char* name;
    double low;
    double high;
    double T::*member;
};

inline constexpr NumberKey<ScenarioField> kFieldKeys[] = {
    {"bout_heading_deg", -360, 360, &ScenarioField::bout_heading_deg},
    {"headland_m", 0, 100, &ScenarioField::headland_m},
    {"crop_kgpm2", 0.02, 3, &ScenarioField::crop_kgpm2},
    {"crop_cv", 0, 0.8, &ScenarioField::crop_cv},
    {"crop_length_m", 3, 500, &ScenarioField::crop_length_m},
    {"patch_cv", 0, 1.5, &ScenarioField::patch_cv},
    {"patch_length_m", 0.2, 20, &ScenarioField::patch_length_m},
    {"haulm_cv", 0, 0.8, &ScenarioField::haulm_cv},
    {"haulm_follows_crop", -2, 2, &ScenarioField::haulm_follows_crop},
    {"lodged_share", 0, 0.9, &ScenarioField::lodged_share},
    {"lodged_length_m", 2, 200, &ScenarioField::lodged_length_m},
    {"lodged_loss_share", 0, 0.8, &ScenarioField::lodged_loss_share},
    {"tenderometer", 0, 250, &ScenarioField::tenderometer},
    {"tenderometer_per_day", 0, 40, &ScenarioField::tenderometer_per_day},
    {"ripening_pct_per_heat_unit", 0, 3, &ScenarioField::ripening_pct_per_heat_unit},
    {"ripening_wander_pct", 0, 10, &ScenarioField::ripening_wander_pct},
    {"yield_per_point", -0.05, 0.1, &ScenarioField::yield_per_point},
    {"slope_deg", 0, 20, &ScenarioField::slope_deg},
    {"downhill_deg", -360, 360, &ScenarioField::downhill_deg},
    {"target_tenderometer", 0, 250, &ScenarioField::target_tenderometer},
};

inline constexpr NumberKey<ScenarioMachine> kMachineKeys[] = {
    {"width_m", 0.5, 12, &ScenarioMachine::width_m},
    {"overlap_m", 0, 3, &ScenarioMachine::overlap_m},
    {"hopper_capacity_kg", 200, 10000, &ScenarioMachine::hopper_capacity_kg},
    {"told_dead_time_s", 0.5, 20, &ScenarioMachine::told_dead_time_s},
    {"told_lag_s", 0.5, 30, &ScenarioMachine::told_lag_s},
    {"told_wanted_tph", 0, 50, &ScenarioMachine::told_wanted_tph},
    {"trays_per_h", 0, 20, &ScenarioMachine::trays_per_h},
};

inline constexpr NumberKey<ScenarioDrum> kDrumKeys[] = {
    {"drum_dead_time_s", 0.5, 20, &ScenarioDrum::dead_time_s},
    {"drum_lag_s", 0.5, 30, &ScenarioDrum::lag_s},
    {"drum_load_share", 0, 1, &ScenarioDrum::load_share},
    {"haulm_ratio", 0.5, 15, &ScenarioDrum::haulm_ratio},
    {"rated_feed_kgps", 0.5, 40, &ScenarioDrum::rated_feed_kgps},
    {"picking_loss_share", 0, 0.5, &ScenarioDrum::picking_loss_share},
    {"drum_loss_share", 0.001, 0.6, &ScenarioDrum::loss_share},
    {"feed_steepness_kgps", 0.3, 20, &ScenarioDrum::feed_steepness_kgps},
};

inline constexpr NumberKey<ScenarioDriver> kDriverKeys[] = {
    {"speed_mps", 0.2, 2.5, &ScenarioDriver::speed_mps},
    {"speed_spread", 0, 0.5, &ScenarioDriver::speed_spread},
    {"eases_off", 0, 1.5, &ScenarioDriver::eases_off},
    {"pauses_per_h", 0, 20, &ScenarioDriver::pauses_per_h},
    {"pause_s", 10, 3600, &ScenarioDriver::pause_s},
    {"breakdowns_per_h", 0, 5, &ScenarioDriver::breakdowns_per_h},
    {"breakdown_s", 30, 36000, &ScenarioDriver::breakdown_s},
    {"breakdown_ln_sd", 0, 2, &ScenarioDriver::breakdown_ln_sd},
};

inline constexpr NumberKey<ScenarioScale> kScaleKeys[] = {
    {"cells", 1, 4, &ScenarioScale::cells},
    {"cell_gain_sd", 0, 0.2, &ScenarioScale::gain_sd},
    {"cell_zero_sd_kg", 0, 200, &ScenarioScale::cell_zero_sd_kg},
    {"zero_kg", -500, 500, &ScenarioScale::zero_kg},
    {"zero_drift_kg", 0, 100, &ScenarioScale::zero_drift_kg},
    {"hysteresis_kg", 0, 50, &ScenarioScale::hysteresis_kg},
    {"zero_kg_per_k", -10, 10, &ScenarioScale::zero_kg_per_k},
    {"temperature_swing_k", 0, 25, &ScenarioScale::temperature_swing_k},
    {"noise_moving_kg", 0, 200, &ScenarioScale::noise_moving_kg},
    {"noise_still_kg", 0, 50, &ScenarioScale::noise_still_kg},
    {"tone_kg", 0, 100, &ScenarioScale::tone_kg},
    {"tone_hz", 0.1, 60, &ScenarioScale::tone_hz},
    {"bounce_kg", 0, 100, &ScenarioScale::bounce_kg},
    {"bounce_hz", 0.5, 10, &ScenarioScale::bounce_hz},
    {"shocks_per_km", 0, 1000, &ScenarioScale::shocks_per_km},
    {"shock_kg", 0, 1000, &ScenarioScale::shock_kg},
    {"quantum_kg", 0, 20, &ScenarioScale::quantum_kg},
    {"clip_kg", 0, 20000, &ScenarioScale::clip_kg},
};

inline constexpr NumberKey<ScenarioSenses> kSensesKeys[] = {
    {"rate_hz", 1, 50, &ScenarioSenses::rate_hz},
    {"jitter_s", 0, 0.2, &ScenarioSenses::jitter_s},
    {"slip_share", -0.2, 0.2, &ScenarioSenses::slip_share},
    {"slip_sd", 0, 0.2, &ScenarioSenses::slip_sd},
    {"dead_band_mps", 0, 0.5, &ScenarioSenses::dead_band_mps},
    {"place_outages_per_h", 0, 60, &ScenarioSenses::place_outages_per_h},
    {"place_outage_s", 1, 3600, &ScenarioSenses::place_outage_s},
    {"place_jumps_per_h", 0, 60, &ScenarioSenses::place_jumps_per_h},
    {"place_jump_m", 0, 200, &ScenarioSenses::place_jump_m},
    {"heading_noise_deg", 0, 30, &ScenarioSenses::heading_noise_deg},
};

inline constexpr NumberKey<ScenarioHits> kHitsKeys[] = {
    {"hits_per_kg", 0, 10000, &ScenarioHits::per_kg},  // one a pea of the lightest thousand_pea_g
    {"hits_false_per_kg", 0, 100, &ScenarioHits::false_per_kg},
    {"hits_delay_s", 0, 30, &ScenarioHits::delay_s},
    {"hits_dead_time_s", 0, 0.1, &ScenarioHits::dead_time_s},
    {"hits_gain_sd", 0, 0.5, &ScenarioHits::gain_sd},
};

inline constexpr NumberKey<ScenarioTrailers> kTrailerKeys[] = {
    {"count", 0, 40, &ScenarioTrailers::count},
    {"capacity_kg", 1000, 40000, &ScenarioTrailers::capacity_kg},
    {"round_s", 60, 36000, &ScenarioTrailers::round_s},
};

inline constexpr NumberKey<ScenarioWeather> kWeatherKeys[] = {
    {"days_before", 0, 200, &ScenarioWeather::days_before},
    {"days_after", 0, 14, &ScenarioWeather::days_after},
    {"min_c", -30, 35, &ScenarioWeather::min_c},
    {"max_c", -30, 45, &ScenarioWeather::max_c},
    {"warming_c_per_day", -0.5, 0.5, &ScenarioWeather::warming_c_per_day},
    {"spread_c", 0, 8, &ScenarioWeather::spread_c},
    {"forecast_sd_c", 0, 8, &ScenarioWeather::forecast_sd_c},
};

}  // namespace podrate::sim
