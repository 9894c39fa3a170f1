// The estimator's own choices: gates, memories, bounds and noises that no machine needs told. What differs
// from machine to machine is in parameter_table.def. Unless a source stands beside it, a choice is practice,
// without one, or was set by what the tests and the accuracy tables showed.
#pragma once

#include "podrate/real.hpp"
#include "podrate/sample.hpp"

namespace podrate::choices {

// The estimator as a whole
namespace estimator {
inline constexpr TimeUs kStepUs = kSecondUs / 4;    // longest filter step while data flow
inline constexpr TimeUs kCoarseStepUs = kSecondUs;  // ... while bridging a gap
inline constexpr TimeUs kSlopeUs = 300000;  // span beside a step over which the area rate's slope is taken
inline constexpr TimeUs kCoarseFromUs = 2 * kSecondUs;  // a longer silence is bridged in coarse steps
inline constexpr TimeUs kLookBackUs = 20 * kSecondUs;  // a weight nears the end of its scale little by little
// sd of the peas that came unweighed meanwhile, as a share
inline constexpr Real kCameDoubtShare = Real(0.2);
// kg: so near below it a reading shakes at the end of the scale
inline constexpr Real kEndOfScaleKg = Real(20);
inline constexpr Real kCeilingShare = Real(0.5);       // of the capacity: no scale ends below
inline constexpr Real kSilenceS = Real(5);             // s: after that the weight is believed afresh
inline constexpr Real kSilenceToldS = Real(15);        // s: a gap that is told
inline constexpr Real kSilenceDoubtShare = Real(0.5);  // sd of what came in a silence, as a share
inline constexpr TimeUs kSteadyUs = 30 * kSecondUs;    // crop without a break for so long: the ramp is over
// kg: more than that from an empty drum gives speed or reel the lie ...
inline constexpr Real kEmptyDrumKg = Real(15);
inline constexpr Real kEmptyDrumSd = Real(6);    // ... and more than so many sd of the weight
inline constexpr Real kFlowOfWork = Real(0.15);  // kg/s: with the speed unknown, more than that is harvesting
inline constexpr TimeUs kIntakeDoubtUs = 600 * kSecondUs;     // how long speed and reel are then left out
inline constexpr TimeUs kIntakeDoubtMoreUs = 60 * kSecondUs;  // ... and how much longer where peas still come
inline constexpr Real kUnseenShare = Real(0.1);  // of the capacity: most that an unseen load is doubted by
inline constexpr Real kFlowDoubt = Real(1);      // kg/s
// of the capacity: less than that after a tip is an empty hopper
inline constexpr Real kEmptyShare = Real(0.1);
inline constexpr Real kTipFollowKg = Real(5);    // sd of the weight while peas pour out
inline constexpr Real kUnseenFallKg = Real(50);  // a smaller fall over an outage is drift
}  // namespace estimator

// What is told, and for how long
namespace told {
inline constexpr TimeUs kWeightMissingUs = 3 * kSecondUs;  // without a weight for so long it is missing
// Variance of a yield by small patches over that of the flow by them: the drum hides some of them from the
// flow
inline constexpr Real kYieldPatches = Real(1.5);
inline constexpr TimeUs kJumpShownUs = 30 * kSecondUs;  // how long a jump or an outage is told after it
}  // namespace told

// Flow filter
namespace flow {
// Bounds of the local crop, as ln kg/m2: 0.02 to 7.4 kg/m2, far outside any pea crop.
inline constexpr Real kLnCropLow = Real(-4);
inline constexpr Real kLnCropHigh = Real(2);            // ln kg/m2
inline constexpr Real kFlowStartVariance = Real(0.25);  // kg2/s2: the drum may be running when the log begins
inline constexpr Real kMassNoise = Real(1e-3);          // kg2/s: shaking down, dribbling
inline constexpr Real kFlowNoise = Real(1e-5);          // kg2/s3: an empty drum is not quite silent
inline constexpr Real kCvSlow = Real(0.002);          // of the spread, a word (two seconds): over some hours
inline constexpr Real kCvFast = Real(0.01);           // ... and so much faster at first
inline constexpr Real kCvWords = Real(200);           // words over which the first haste halves
inline constexpr int kCvWordsMost = 1000000;          // words: counted no further
inline constexpr Real kFoldShare = Real(0.5);         // of the way to the fold of the loss curve
inline constexpr Real kLeastFlow = Real(-0.05);       // kg/s: peas do not leave a hopper through the drum
inline constexpr Real kDeadTimeDrift = Real(2.8e-6);  // s2/s: 0.1 s in an hour
inline constexpr Real kLagDrift = Real(7e-7);         // 1/s: 5 % in an hour
inline constexpr Real kLeastDeadTimeS = Real(0.5);    // s: bounds of what is learnt
inline constexpr Real kMostDeadTimeS = Real(20);      // s; the delay line remembers 25
inline constexpr Real kLnLagReach = Real(1);          // the lag stays within a factor e of what was told
// The loss curve's level: 1/s, 5 % in an hour of work
inline constexpr Real kLevelDrift = Real(7e-7);
inline constexpr Real kMisfitDrift = Real(7e-7);  // 1/s
inline constexpr Real kLevelReach = Real(2.5);    // as ln: a twelfth to twelve times the loss told
inline constexpr Real kLnPickingReach = Real(3);  // as ln
inline constexpr Real kLeastPicking =
    Real(0.001);                                 // share: a reel that leaves nothing at all is not believed
inline constexpr Real kMostPicking = Real(0.6);  // share
inline constexpr Real kUsualOverM = Real(600);   // m: of the driver's usual rate
inline constexpr Real kMostUsualHazard = Real(0.4);  // a third of the peas lost as a rule is beyond any use
inline constexpr Real kMostEager = Real(0.5);        // as ln: beyond that it is no answer to the crop
inline constexpr Real kLeastReaction = Real(-1);     // in lodged crop people slow down though it gives less
inline constexpr Real kMostReaction = Real(2);
inline constexpr Real kNinetyPctSds = Real(1.6448536);  // a normal's 90 % lie within so many sd
}  // namespace flow

// Loss: trays and sensor
namespace loss {
inline constexpr Real kTrayLeastKgpm2 = Real(0.0005);  // kg/m2 = 5 kg/ha, a pea or two in a tray
// sd of a tray's ground against the swath's mean, as ln, besides its counting
inline constexpr Real kTraySpotSd = Real(0.1);
inline constexpr int kFeedRounds = 4;       // until feed and hazard agree
inline constexpr Real kHitsSd = Real(0.1);  // of a block of hits besides Poisson's scatter, as ln
// of ln(drum loss per area) about that of the mean crop: 0.2 of the crop, steeper by the feed
inline constexpr Real kRatioSd = Real(0.4);
// of the drum's hazard about its curve, as ln, where no sensor speaks: haulm, moisture
inline constexpr Real kUnheardSd = Real(0.25);
inline constexpr Real kMostDrumLoss = Real(0.8);   // share
inline constexpr Real kExcessLengthM = Real(25);   // m: over which that differs; the crop's own length
inline constexpr Real kMostExcess = Real(1.5);     // as ln
inline constexpr int kGainBlocks = 3600;           // two hours of work, over which the sensor's gain is taken
inline constexpr Real kSurestMemory = Real(1e-4);  // variance of a memory, as ln2
inline constexpr Real kTightest = Real(0.95);      // correlation that a memory may bring
inline constexpr TimeUs kHitsBlockUs = 2 * kSecondUs;
inline constexpr TimeUs kHitsSilenceUs = 2 * kSecondUs;
inline constexpr TimeUs kAnswerUs = 6 * kSecondUs;  // after the cut: in that a driver answers to the crop
inline constexpr Real kSpreadOverM = Real(6000);    // m: some two hours of work
// What a day takes from what is known of the loss, variance of the ln a day: crops and settings change
inline constexpr Real kLevelPerDay = Real(0.02);
inline constexpr Real kPickingPerDay = Real(0.02);
inline constexpr TimeUs kPlaceEveryUs = 8 * kSecondUs;   // of work, between two places remembered
inline constexpr TimeUs kPlaceReachUs = 30 * kSecondUs;  // a tray so far from any place has none
inline constexpr Real kBookReach = Real(3);              // the loss book reaches so far beyond the rated feed
}  // namespace loss

// Innovations, averaged over blocks
namespace innovations {
inline constexpr Real kBlockS = Real(1.99);  // s: longer than the sway of a chassis
}  // namespace innovations

// The crop's spread, learnt
namespace whiteness {
inline constexpr Real kMemory = Real(0.5);  // a block: the crop's own pace, as the drum lets it through
inline constexpr Real kMost = Real(4);      // a word counts no more than that many sd
}  // namespace whiteness

// A weight that repeats, and the hopper's rest
namespace stuck {
// Readings of a moving machine that do not change for so long and so often come from a dead cell or
// amplifier.
inline constexpr TimeUs kStuckUs = 5 * kSecondUs;
inline constexpr TimeUs kStuckLongUs = 60 * kSecondUs;  // repeats so long are stuck whatever comes
// What stays in a hopper is never less than nothing: a half-normal, whose sd is that share of its mean.
inline constexpr Real kResidueSdShare = Real(0.756);
inline constexpr Real kStuckKg = Real(25);  // kg of peas that should have shown
inline constexpr int kStuckReadings = 10;   // and so many readings
// What falls short while a reading repeats for longer may be a stuck scale's doing as well as a drum's.
inline constexpr TimeUs kRepeatsUs = kSecondUs;
inline constexpr int kRepeats = 3;
}  // namespace stuck

// A tilt sensor that has died
namespace tilt {
inline constexpr TimeUs kDeadUs = 20 * kSecondUs;    // repeats on a moving machine for so long ...
inline constexpr int kSameReadings = 40;             // ... and so often
inline constexpr TimeUs kSilentUs = 30 * kSecondUs;  // it has spoken, and no more
}  // namespace tilt

// One cell held against the others
namespace cells {
inline constexpr Real kMemoryS = Real(600);                   // s: of a cell's line, most of a load
inline constexpr Real kLeastSpreadKg2 = Real(50) * Real(50);  // of the others, before the line is believed
inline constexpr TimeUs kLivelyUs = kSecondUs;                // a cell that has moved within that is alive
inline constexpr TimeUs kSameUs = 5 * kSecondUs;              // shorter repeats may be chance
inline constexpr Real kOthersMovedKg = Real(15);              // kg: by then a live cell would have moved too
inline constexpr Real kOthersMovedSteps = Real(3);  // ... and so many of its own steps for each of them
inline constexpr Real kCoarsestKg = Real(10);       // kg: a step of one that has not yet moved
inline constexpr Real kAgreesKg = Real(40);      // kg: so near its line a cell that moves again is believed
inline constexpr Real kDoubtKg = Real(3);        // kg: least sd of a cell stood in for ...
inline constexpr Real kDoubtShare = Real(0.03);  // ... and beyond that of what it should bear
}  // namespace cells

// The noise, followed
namespace noise {
inline constexpr Real kSpreadMemoryS = Real(30);  // steady to 6 % at 10 Hz
// steady to about 15 %: the flow's interval then to 6 %
inline constexpr Real kWhiteMemoryBlocks = Real(120);
// nothing counts as more than 3 sd: shocks are the robust update's work
inline constexpr Real kClip = Real(9);
// 0.1 kg: a quantised standing scale is never believed to be perfect
inline constexpr Real kLeastKg2 = Real(0.01);
// readings are averaged over that, so that a tone at a few hertz does not count
inline constexpr TimeUs kBlockUs = kSecondUs;
inline constexpr TimeUs kBreakUs = 2 * kSecondUs;  // blocks further apart are not neighbours
}  // namespace noise

// Area and distance
namespace swath {
inline constexpr TimeUs kBridgedUs = 60 * kSecondUs;  // a gap in the speed that is bridged by a straight line
inline constexpr Real kUsualMemoryS = Real(30);       // s: memory of the harvesting speed
inline constexpr Real kRestartFactor = Real(1.5);     // hysteresis between standing and moving
}  // namespace swath

// Wheel slip, learnt from places
namespace slip {
inline constexpr Real kLegM = Real(100);        // m by the wheels, between the two places compared
inline constexpr Real kMostSlip = Real(0.06);   // a ratio further from 1 is a bend, a jump or a dead receiver
inline constexpr Real kUsualSd = Real(0.02);    // of the factor, before any leg; practice
inline constexpr Real kPlaceSdM = Real(0.7);    // m: of a place against one a leg ago; practice
inline constexpr Real kWanderSd = Real(0.005);  // of the slip from leg to leg; practice
inline constexpr Real kDriftPerM = Real(1e-9);  // variance a metre: half a per cent in some hours; practice
}  // namespace slip

// Tips
namespace tips {
inline constexpr Real kSmoothS = Real(0.4);  // s: over which the weight is smoothed
// between the points that a slope is taken over: about a second in all
inline constexpr TimeUs kPastUs = 330000;
inline constexpr Real kSurpriseSd = Real(5);         // a fall of so many sd ...
inline constexpr Real kSurpriseKg = Real(20);        // ... and kg is suspected
inline constexpr TimeUs kConfirmUs = kSecondUs / 2;  // a fall lasts at least that long
// a fall smaller than that in kBottomUs is the end of the tip
inline constexpr Real kStillFallingKg = Real(3);
inline constexpr TimeUs kBottomUs = 2 * kSecondUs;  // over which the end of a fall is judged
// weighed that long after the bottom: sd of the rest then about 0.5 kg
inline constexpr TimeUs kSettleUs = 4 * kSecondUs;
}  // namespace tips

// Weights far from where they should be
namespace surprise {
inline constexpr Real kLimitSd = Real(8);                  // a weight so many sd ...
inline constexpr Real kLimitKg = Real(25);                 // ... and kg off is a surprise
inline constexpr TimeUs kLastsUs = 3 * kSecondUs;          // a shorter surprise is passed over
inline constexpr TimeUs kDropOutLastsUs = 60 * kSecondUs;  // an indicator starts again within that
inline constexpr TimeUs kGapUs = 3 * kSecondUs;  // after a longer gap peas or tips may have been missed
inline constexpr Real kTrendMemoryS = Real(2);   // s: over which a surprise may have built up
// so much of a surprise had built up before it was one: no sudden step
inline constexpr Real kSteadyShare = Real(0.35);
inline constexpr Real kStepSd = Real(4);        // a step of so many sd of the weight and
inline constexpr Real kStepShare = Real(0.03);  // of the capacity: a larger step between two readings ...
// ... less that share a second is faster than any hopper empties
inline constexpr Real kPourShare = Real(0.25);
}  // namespace surprise

// Loads
namespace loads {
inline constexpr TimeUs kSnapshotUs = kSecondUs / 2;  // how often the weight is remembered for a tip
// The weight before a tip is taken that long before the fall was seen: the first seconds of a tip are slow.
inline constexpr TimeUs kBeforeUs = 2 * kSecondUs;
inline constexpr Real kSameTipM2 = Real(5);  // less crop than that between two falls: parts of one tip
inline constexpr TimeUs kSameTipUs = 300 * kSecondUs;  // and no longer than that between them
inline constexpr Real kLateSdShare = Real(0.1);        // of the peas that the drum delivered during a tip
inline constexpr Real kUnseenSdShare = Real(0.2);      // of the peas that should have come during an outage
// of the capacity: with more left in, the oldest peas are still there
inline constexpr Real kLeftOverShare = Real(0.03);
}  // namespace loads

// Advice on speed
namespace advice {
inline constexpr Real kLeastHazard = Real(0.002);   // of the drum: below it picking alone fills the limit
inline constexpr Real kLeastFeedShare = Real(0.1);  // of the rated feed: slower is no work
inline constexpr Real kSureWithin =
    Real(1.25);  // advice is silent where its 90 % interval reaches further up
inline constexpr Real kSteepnessLnSd = Real(0.15);  // of the steepness told, as ln
inline constexpr Real kHaulmLnSd = Real(0.15);      // of the haulm ratio told, as ln
inline constexpr Real kAttainable = Real(0.98);     // of the rate at the fold
inline constexpr Real kFoldReach = Real(8);         // of the rated feed: no fold lies beyond
inline constexpr Real kFoldFrom = Real(1.0 / 64);   // of the steepness: no fold lies below
inline constexpr int kFoldSteps = 8;                // to a rounding, from the one end to the other
inline constexpr int kHalvings = 24;                // to a hair of a speed
inline constexpr Real kSlewMps2 = Real(0.01);       // m/s a second: 1 km/h in half a minute
inline constexpr Real kSteerableMps = Real(0.02);   // m/s: nobody steers closer
inline constexpr Real kLongestSpanS = Real(30);     // s between two looks
}  // namespace advice

// Pauses in standing crop
namespace pauses {
inline constexpr TimeUs kShortestUs = 15 * kSecondUs;  // a shorter stand leaves no heap worth marking
inline constexpr Real kHaulmMemoryS = Real(8);         // s: the drum's lag
inline constexpr TimeUs kSurgeUs = 40 * kSecondUs;     // dead time, three lags
}  // namespace pauses

// Time stamps and clocks
namespace times {
inline constexpr TimeUs kFarAheadUs = 30 * kSecondUs;  // a leap that others must confirm
inline constexpr int kConfirmations = 3;              // so many later samples, or tellings of UTC, confirm it
inline constexpr int kMostPerSecond = 200;            // samples of one channel: four times what is promised
inline constexpr TimeUs kFollowedUs = kSecondUs / 2;  // UTC off by less is followed, by more is a step
inline constexpr int kFollowShare = 16;               // a telling moves the clock by that part of its error
}  // namespace times

// State that outlasts a power cut
namespace retained {
inline constexpr TimeUs kFreshUs = kSecondUs;   // weights are averaged over that
inline constexpr int kFreshAgreements = 2;      // so many means that agree with the one before count
inline constexpr Real kFreshFallKg = Real(10);  // from one mean to the next: a tip that goes on falls faster
inline constexpr Real kFreshRiseKg = Real(30);  // ... and no machine fills faster
// What a bin of the loss book holds at least that ever took a pea, kg, and how far its excess may go, as a
// ratio: beyond any crop, so that a record of another making cannot bring a share of nothing.
inline constexpr Real kLeastBookedKg = Real(1e-4);
inline constexpr Real kMostBookedExcess = Real(100);
inline constexpr TimeUs kWholeEveryUs = 60 * kSecondUs;  // what is learnt slowly is written so often
}  // namespace retained

// Work states
namespace states {
// a viner keeps a straight bout within a degree or two a second
inline constexpr Real kTurnBeginsDps = Real(5);
inline constexpr Real kTurnEndsDps = Real(1.5);        // degrees a second: straight again below that
inline constexpr Real kHeadingMemoryS = Real(1.5);     // s: over which the turn rate is smoothed
inline constexpr TimeUs kLoweringUs = 12 * kSecondUs;  // hopper going down after the last pea has left
// with no reel signal, a longer stand in crop is a stop
inline constexpr TimeUs kPauseLongestUs = 180 * kSecondUs;
}  // namespace states

}  // namespace podrate::choices
