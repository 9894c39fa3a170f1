# Prints the figures that tests/sim/kriging_test.cpp holds, from R's gstat.
# Usage: Rscript kriging.R [FILE]; needs sp and gstat (made with gstat 2.1-0 and R 4.2.2). With FILE, the whole
# set of samples and what is kriged from it go there, for tests/sim/kriging_meuse_test.
suppressMessages({
    library(sp)
    library(gstat)
})

number <- function(x) sprintf("%.12g", x)
asked <- function(x, y) {
    place <- data.frame(x = x, y = y)
    coordinates(place) <- ~ x + y
    place
}

data(meuse)
places <- list(c(181180, 333740), c(180300, 332100), c(179500, 330900))
all_points <- meuse
coordinates(meuse) <- ~ x + y
bins <- variogram(log(zinc) ~ 1, meuse)
spherical <- suppressWarnings(fit.variogram(bins, vgm(1, "Sph", 900, 1)))

few <- meuse[seq(1, 155, by = 16), ]
cat("Ten of the Meuse samples, with their logarithm of zinc\n")
cat(sprintf("    {%s, %s, %s, 0.0},\n", number(coordinates(few)[, 1]), number(coordinates(few)[, 2]),
            number(log(few$zinc))), sep = "")
exponential <- vgm(0.5, "Exp", 400, 0.1)
for (place in c(places, list(coordinates(few)[3, ] + c(1, 0)))) {
    told <- krige(log(zinc) ~ 1, few, asked(place[1], place[2]), exponential, debug.level = 0)
    cat(number(place), number(told$var1.pred), number(told$var1.var), "\n")
}

cat("The same, each sample with an error of its own (variance 0.01 x its number)\n")
for (place in places) {
    h <- as.matrix(dist(coordinates(few)))
    to <- sqrt((coordinates(few)[, 1] - place[1])^2 + (coordinates(few)[, 2] - place[2])^2)
    cover <- function(d) ifelse(d == 0, 0.6, 0.5 * exp(-d / 400))
    n <- nrow(h)
    left <- rbind(cbind(cover(h) + diag(0.01 * (1:n)), 1), c(rep(1, n), 0))
    right <- c(cover(to), 1)
    weights <- solve(left, right)
    cat(number(place), number(sum(weights[1:n] * log(few$zinc))), number(0.6 - sum(weights * right)), "\n")
}

path <- commandArgs(trailingOnly = TRUE)
if (length(path) == 1) {
    lines <- sprintf("point %s %s %s", number(all_points$x), number(all_points$y), number(log(all_points$zinc)))
    lines <- c(lines, paste("model", number(spherical$psill[1]), number(spherical$psill[2]),
                            number(spherical$range[2])))
    for (place in places) {
        told <- krige(log(zinc) ~ 1, meuse, asked(place[1], place[2]), spherical, debug.level = 0)
        lines <- c(lines, paste("told", number(place[1]), number(place[2]), number(told$var1.pred),
                                number(told$var1.var)))
    }
    writeLines(lines, path)
}
