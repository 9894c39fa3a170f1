# Prints the figures that tests/sim/tuning_intervals_test.cpp holds.
# Usage: Rscript tuning.R; needs pROC and boot (made with pROC 1.18.0, boot 1.3-28.1 and R 4.2.2).
suppressMessages({
    library(pROC)
    library(boot)
})

number <- function(x) sprintf("%.12g", x)

cat("aSAH of pROC: counts of poor and good outcomes by grade, the worst first\n")
data(aSAH)
print_grades <- function(score) {
    counts <- table(factor(score, levels = sort(unique(score), decreasing = TRUE)), aSAH$outcome)
    cat(sprintf("{%d, %d}, ", counts[, "Poor"], counts[, "Good"]), "\n")
    curve <- roc(aSAH$outcome, as.numeric(score), levels = c("Good", "Poor"), direction = "<", quiet = TRUE)
    cat("area", number(auc(curve)), "sd by DeLong", number(sqrt(var(curve, method = "delong"))),
        "95 % range", number(ci(curve, method = "delong")), "\n")
}
print_grades(as.numeric(aSAH$wfns))
print_grades(aSAH$s100b)

cat("Wilson, no continuity correction: k, n, level, low, high\n")
for (ask in list(c(0, 7, 0.9), c(19, 20, 0.9), c(38, 40, 0.95), c(5, 5, 0.9), c(130, 400, 0.99))) {
    range <- prop.test(ask[1], ask[2], conf.level = ask[3], correct = FALSE)$conf.int
    cat(sprintf("{%g, %g, %g, %s, %s},\n", ask[1], ask[2], ask[3], number(range[1]), number(range[2])))
}

cat("Student's t: p, degrees, quantile\n")
for (ask in list(c(0.95, 1), c(0.95, 2), c(0.975, 5), c(0.05, 8), c(0.995, 29)))
    cat(sprintf("{%g, %g, %s},\n", ask[1], ask[2], number(qt(ask[1], ask[2]))))

cat("Garwood, 90 %: count in 10 h, bound\n")
for (count in c(0, 1, 3, 9, 400))
    cat(sprintf("{%g, %s},\n", count, number(poisson.test(count, 10, conf.level = 0.9)$conf.int[2])))

cat("Quantiles of type 2: median and 0.9\n")
delays <- c(3, 1, 4, 1, 5, 9, 2, 6, 5, 3)
cat(number(quantile(delays, c(0.5, 0.9), type = 2)), "\n")
cat(number(quantile(delays[1:7], c(0.5, 0.9), type = 2)), "\n")

cat("Clustered bootstrap of a ratio, false alarms an hour of twelve machine's days: 90 %, expanded percentiles\n")
false_alarms <- c(3, 0, 7, 2, 1, 12, 4, 0, 5, 2, 9, 1)
hours <- c(9, 11, 10, 8, 12, 10, 9, 7, 10, 11, 10, 6)
set.seed(1)
drawn <- boot(data.frame(false_alarms, hours), function(d, i) sum(d$false_alarms[i]) / sum(d$hours[i]), 400000)
n <- length(hours)
tail <- pnorm(-qt(0.95, n - 1) * sqrt(n / (n - 1)))
cat(number(quantile(drawn$t, c(tail, 1 - tail), type = 7)), "\n")
