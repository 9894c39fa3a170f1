# Prints the figures that tests/sim/fixed_interval_test.cpp holds, from R's own Kalman smoother.
# Usage: Rscript smoother.R (made with R 4.2.2; nothing but the packages stats and datasets).

number <- function(x) sprintf("%.9f", x)

# State space as StructTS keeps it: T transition, Z measurement, V and h noise; the start is a prediction for
# the first reading, so that nit = 0 takes Pn as it stands.
level_model <- function(a, P, level, noise) {
    list(T = matrix(1), Z = 1, h = noise, V = matrix(level), a = a, P = matrix(P), Pn = matrix(P))
}
trend_model <- function(P, level, slope, noise) {
    list(T = matrix(c(1, 0, 1, 1), 2), Z = c(1, 0), h = noise, V = diag(c(level, slope)), a = c(0, 0),
         P = P * diag(2), Pn = P * diag(2))
}

print_levels <- function(what, y, model, at) {
    run <- KalmanSmooth(y, model, nit = 0L)
    cat(what, "\n")
    for (t in at) cat(sprintf("    {%d, %s, %s},\n", t, number(run$smooth[t]), number(run$var[t])))
}

# Exact diffuse start: the first reading is the state and its noise the variance, and is not taken again.
nile <- as.numeric(Nile)
diffuse <- level_model(nile[1], 15099, 1469.1, 15099)
gaps <- nile
gaps[c(21:40, 61:80)] <- NA
print_levels("Nile from a diffuse start", replace(nile, 1, NA), diffuse, c(1, 2, 10, 29, 50, 99, 100))
print_levels("Nile with years missing", replace(gaps, 1, NA), diffuse, c(1, 20, 21, 30, 40, 41, 80, 100))
print_levels("Nile from a wide start at zero", nile, level_model(0, 1e7, 1469.1, 15099), c(1, 2, 50, 100))

print_trends <- function(what, y, model, at) {
    run <- KalmanSmooth(y, model, nit = 0L)
    cat(what, "\n")
    for (t in at) {
        P <- run$var[t, , ]
        cat(sprintf("    {%d, %s, %s, %s, %s, %s},\n", t, number(run$smooth[t, 1]), number(run$smooth[t, 2]),
                    number(P[1, 1]), number(P[1, 2]), number(P[2, 2])))
    }
}

residents <- as.numeric(austres)
cat("austres\n", paste(residents, collapse = ", "), "\n")
trend <- trend_model(1e7, 0, 25, 100)
filtered <- KalmanRun(residents, trend, nit = 0L)$states
cat("austres filtered\n")
for (t in c(10, 89)) cat(sprintf("    {%d, %s, %s},\n", t, number(filtered[t, 1]), number(filtered[t, 2])))
print_trends("austres smoothed", residents, trend, c(1, 2, 10, 45, 70, 88, 89))
print_trends("austres smoothed with quarters 30 to 44 missing", replace(residents, 30:44, NA), trend,
             c(1, 29, 30, 37, 44, 45, 89))
print_trends("Nile smoothed as a trend", nile, trend_model(1e7, 1469.1, 10, 15099), c(1, 10, 50, 100))
