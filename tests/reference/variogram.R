# Prints the figures that tests/sim/variogram_test.cpp holds, from R's gstat.
# Usage: Rscript variogram.R [pea_uniformity_1960.tsv]; needs sp and gstat (made with gstat 2.1-0 and R 4.2.2).
suppressMessages({
    library(sp)
    library(gstat)
})

number <- function(x) sprintf("%.12g", x)

print_bins <- function(bins) {
    cat(sprintf("    {%d, %s, %s},\n", as.integer(bins$np), number(bins$dist), number(bins$gamma)), sep = "")
}

# fit.variogram stops early: go on from its own result until it stands still. A nugget held at 0 stays held.
print_fit <- function(what, bins, start) {
    found <- suppressWarnings(fit.variogram(bins, start))
    for (i in 1:200) found <- suppressWarnings(fit.variogram(bins, found, fit.sills = found$psill > 0))
    cat(what, "fit: nugget", number(found$psill[1]), "partial sill", number(found$psill[2]), "range",
        number(found$range[2]), if (attr(found, "singular")) "singular", "\n")
}

# Groups are set far apart, so that no pair between them is within the cutoff.
bins_of <- function(points, cutoff, width) {
    points$east <- points$east + 1e4 * points$group
    coordinates(points) <- ~ east + north
    variogram(value ~ 1, points, cutoff = cutoff, width = width)
}

cat("Row of points 1 m apart\n")
print_bins(bins_of(data.frame(east = 0:9, north = 0, value = (0:9)^2 / 10, group = 0), 6, 2))

cat("Sixty points\n")
k <- 0:59
sixty <- data.frame(east = (7 * k^2 + 3 * k) %% 101 / 2, north = (5 * k^2 + 11 * k) %% 97 / 2,
                    group = as.integer(k >= 30))
sixty$value <- sin(0.2 * sixty$east) + cos(0.15 * sixty$north) + (29 * k) %% 31 / 31 + sixty$group
bins <- bins_of(sixty, 24, 2.5)
print_bins(bins)
print_fit("Exponential", bins, vgm(1, "Exp", 5, 0.1))

cat("Meuse, logarithm of zinc\n")
data(meuse)
coordinates(meuse) <- ~ x + y
bins <- variogram(log(zinc) ~ 1, meuse)
print_bins(bins)
print_fit("Spherical", bins, vgm(1, "Sph", 900, 1))
print_fit("Exponential", bins, vgm(1, "Exp", 300, 1))

cat("Bins that rise before the first\n")
bins <- data.frame(np = c(1000, 1800, 2600, 3400, 4200, 5000, 5800, 6600), dist = 2.3 + 4 * 0:7,
                   gamma = c(0.0958, 0.142, 0.146, 0.143, 0.147, 0.145, 0.144, 0.15),
                   dir.hor = 0, dir.ver = 0, id = "var1")
class(bins) <- c("gstatVariogram", "data.frame")
attr(bins, "direct") <- data.frame(id = "var1", is.direct = TRUE)
print_fit("Exponential", bins, vgm(0.075, "Exp", 3, 0.075))

path <- commandArgs(trailingOnly = TRUE)
if (length(path) == 1) {
    cat("Peas, logarithm of the shelled weight\n")
    plots <- read.delim(path)
    foot <- 0.3048
    peas <- data.frame(east = (plots$col - 1) * 17 * foot, north = (plots$row - 1) * 5 * foot,
                       value = log(plots$peas), group = as.integer(plots$block == "B2"))
    bins <- bins_of(peas, 32, 4)
    print_bins(bins)
    print_fit("Exponential", bins, vgm(0.1, "Exp", 10, 0.05))
}
