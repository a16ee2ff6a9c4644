# Values that journal/stats is checked against, computed in R 4.2.2:
#   Rscript testdata/stats/make_reference.R > testdata/stats/r_reference.csv
# Only base R is used. Columns: what, input, value.
row <- function(what, input, value) cat(sprintf('%s,"%s",%.15g\n', what, input, value))
cat("what,input,value\n")

# Exact binomial tails and limits.
for (a in list(c(8, 10, 1/3), c(11, 14, .5), c(5, 6, 1/3), c(0, 4, .2), c(30, 40, .5), c(60, 60, .25)))
  row("binomial_upper", sprintf("%d %d %.17g", a[1], a[2], a[3]), pbinom(a[1] - 1, a[2], a[3], lower.tail = FALSE))
for (a in list(c(11, 14), c(3, 20), c(7, 14), c(0, 9)))
  row("sign_test", sprintf("%d %d", a[1], a[2]), binom.test(a[1], a[2])$p.value)
for (a in list(c(8, 12), c(0, 7), c(7, 7), c(1, 90), c(55, 120))) {
  cp <- binom.test(a[1], a[2])$conf.int
  key <- sprintf("%d %d", a[1], a[2])
  row("clopper_lower", key, cp[1]); row("clopper_upper", key, cp[2])
}

# Signed rank without ties: wilcox.test(exact = TRUE). Darwin's maize
# (Zea mays) differences are R's and Fisher's (1935) textbook data, in eighths
# of an inch, with one tie; the list here breaks it.
s <- function(x) paste(x, collapse = " ")
for (d in list(c(1.5, -2, 3, 4.5, 5, 6), c(-1, 2, 3.5, 4, -5.5, 6, 7, 8.5, 9, 10),
               c(49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48))) {
  w <- wilcox.test(d, exact = TRUE)
  row("signed_rank_p", s(d), w$p.value)
  row("signed_rank_plus", s(d), w$statistic)
}
# With ties and zeros: all sign changes counted out here, on mid-ranks.
for (d in list(c(1, 1, 2, -1, 3), c(2, 2, -1, 0, 1, 3, 0, 2), c(-1, -1, -2, -2, -3, 1, 2, -4, -1))) {
  nz <- d[d != 0]; r <- rank(abs(nz)); n <- length(nz)
  signs <- as.matrix(expand.grid(rep(list(0:1), n)))
  sums <- as.vector(signs %*% r); seen <- sum(r[nz > 0])
  p <- min(1, 2 * min(mean(sums <= seen + 1e-9), mean(sums >= seen - 1e-9)))
  row("signed_rank_tied_p", s(d), p)
}

# Mann-Whitney without ties: wilcox.test(exact = TRUE).
for (g in list(list(c(1.1, 2.2, 3.3, 7.5), c(4.4, 5.5, 6.6, 8.8, 9.9)),
               list(c(78, 64, 75, 45, 82), c(110, 70, 53, 51)),
               list(c(.8, .83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, .73, 1.46), c(1.15, .88, .9, .74, 1.21)))) {
  w <- wilcox.test(g[[1]], g[[2]], exact = TRUE, conf.int = TRUE)
  key <- paste(s(g[[1]]), "|", s(g[[2]]))
  row("mann_whitney_p", key, w$p.value)
  row("mann_whitney_shift", key, w$estimate)
  row("mann_whitney_lower", key, w$conf.int[1]); row("mann_whitney_upper", key, w$conf.int[2])
}
# With ties: all choices counted out here.
for (g in list(list(c(1, 2, 2, 5), c(2, 3, 5, 6, 6)), list(c(7, 7, 8), c(4, 5, 7, 7)))) {
  all <- c(g[[1]], g[[2]]); r <- rank(all); m <- length(g[[1]])
  sums <- combn(length(all), m, function(i) sum(r[i])); seen <- sum(r[1:m])
  p <- min(1, 2 * min(mean(sums <= seen + 1e-9), mean(sums >= seen - 1e-9)))
  row("mann_whitney_tied_p", paste(s(g[[1]]), "|", s(g[[2]])), p)
}
# Large: normal approximation, continuity corrected.
a <- (1:70) %% 23; b <- ((1:65) %% 19) + 2
row("mann_whitney_normal_p", paste(s(a), "|", s(b)), suppressWarnings(wilcox.test(a, b, exact = FALSE))$p.value)

# Spearman, exact for n <= 9 in cor.test.
for (g in list(list(1:7, c(2, 1, 4, 3, 7, 6, 5)), list(1:9, c(9, 7, 8, 5, 6, 3, 4, 1, 2)), list(1:5, c(3, 1, 5, 2, 4)))) {
  w <- cor.test(g[[1]], g[[2]], method = "spearman", exact = TRUE)
  key <- paste(s(g[[1]]), "|", s(g[[2]]))
  row("spearman_rho", key, w$estimate); row("spearman_p", key, w$p.value)
}

for (p in list(c(.01, .04, .03, .005), c(.5, .02, .9), c(.2))) {
  h <- p.adjust(p, "holm")
  for (i in seq_along(p)) row("holm", paste(s(p), "|", i), h[i])
}
