/* The trials of a 36-reading run as a plain C loop: the same arithmetic, the same generators, nothing else.
 * Reads numbers from standard input (see metrology.ts), prints seconds and standard uncertainties. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static uint32_t s[4];
static inline uint32_t rotl(uint32_t x, int k) { return (x << k) | (x >> (32 - k)); }
static inline int32_t next(void) {
  const uint32_t result = rotl(s[1] * 5, 7) * 9;
  const uint32_t t = s[1] << 9;
  s[2] ^= s[0];
  s[3] ^= s[1];
  s[1] ^= s[2];
  s[0] ^= s[3];
  s[2] ^= t;
  s[3] = rotl(s[3], 11);
  return (int32_t)result;
}

static double edge[129], inside[128];
static const double R = 3.442619855899, V = 9.91256303526217e-3;
static void tables(void) {
  edge[0] = V / exp(-0.5 * R * R);
  edge[1] = R;
  for (int i = 2; i < 128; i++) edge[i] = sqrt(-2 * log(V / edge[i - 1] + exp(-0.5 * edge[i - 1] * edge[i - 1])));
  for (int i = 0; i < 128; i++) inside[i] = edge[i + 1] / edge[i];
}
static inline double sign1(void) { return (next() + 0.5) * 0x1p-31; }
static inline double unit1(void) { return ((uint32_t)next() + 0.5) * 0x1p-32; }
static double tail(void) {
  for (;;) {
    const double x = log(unit1()) / R, y = log(unit1());
    if (-2 * y >= x * x) return R - x;
  }
}
static double normal(void) {
  for (;;) {
    const int32_t word = next();
    const int layer = word & 127;
    const double place = ((word >> 7) + 0.5) * 0x1p-24;
    if (fabs(place) < inside[layer]) return place * edge[layer];
    if (layer == 0) return place > 0 ? tail() : -tail();
    const double x = place * edge[layer];
    const double low = exp(-0.5 * (edge[layer] * edge[layer] - x * x));
    const double high = exp(-0.5 * (edge[layer + 1] * edge[layer + 1] - x * x));
    if (high + unit1() * (low - high) < 1) return x;
  }
}
static double chi2(double dof) {
  const double d = dof / 2 - 1.0 / 3, c = 1 / sqrt(9 * d);
  for (;;) {
    const double x = normal(), root = 1 + c * x;
    if (root <= 0) continue;
    const double v = root * root * root, p = unit1(), square = x * x;
    if (p < 1 - 0.0331 * square * square) return 2 * d * v;
    if (log(p) < 0.5 * square + d * (1 - v + log(v))) return 2 * d * v;
  }
}

#define FIELDS 4
#define POINTS 9
static int compare(const void *a, const void *b) {
  const double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}
static double scan(void) {
  double x;
  if (scanf("%lf", &x) != 1) exit(2);
  return x;
}

int main(void) {
  tables();
  const long trials = (long)scan();
  for (int i = 0; i < 4; i++) s[i] = (uint32_t)scan();
  const double gain = scan(), width = scan(), dwidth = scan(), height = scan(), dheight = scan(), square = scan();
  const double ambient = scan(), dambient = scan(), drift = scan(), digits = scan();
  double gross[FIELDS], spectral[FIELDS], resolution[FIELDS], repeat[FIELDS], dof[FIELDS];
  for (int f = 0; f < FIELDS; f++) {
    gross[f] = scan();
    spectral[f] = scan();
    resolution[f] = scan();
    repeat[f] = scan();
    dof[f] = scan();
  }
  const int outputs = FIELDS + 2;
  double *stored = malloc(sizeof(double) * outputs * trials);
  struct timespec from, to;
  clock_gettime(CLOCK_MONOTONIC, &from);
  for (long t = 0; t < trials; t++) {
    const double g = 1 + gain * sign1(), off = digits * sign1();
    const double area = (width + dwidth * sign1()) * (height + dheight * sign1()) * (1 + square * sign1());
    const double dark = ambient + dambient * sign1();
    const double driftWhite = 1 + drift * sign1(), driftColours = 1 + drift * sign1();
    double flux[FIELDS];
    for (int f = 0; f < FIELDS; f++) {
      const double own = 1 + spectral[f] * sign1();
      const double scale = repeat[f] * sqrt(dof[f] / chi2(dof[f]));
      double sum = 0;
      for (int i = 0; i < POINTS; i++) sum += resolution[f] * sign1() + scale * normal();
      const double net = g * (own * (gross[f] + sum / POINTS + off) - dark);
      flux[f] = net * area * (f == 0 ? driftWhite : driftColours);
      stored[f * trials + t] = flux[f];
    }
    const double colour = flux[1] + flux[2] + flux[3];
    stored[4 * trials + t] = colour;
    stored[5 * trials + t] = colour / flux[0];
  }
  clock_gettime(CLOCK_MONOTONIC, &to);
  printf("%.6f", (to.tv_sec - from.tv_sec) + 1e-9 * (to.tv_nsec - from.tv_nsec));
  clock_gettime(CLOCK_MONOTONIC, &from);
  for (int k = 0; k < outputs; k++) {
    double *y = stored + k * trials, sum = 0, squares = 0;
    for (long t = 0; t < trials; t++) sum += y[t];
    const double mean = sum / trials;
    for (long t = 0; t < trials; t++) squares += (y[t] - mean) * (y[t] - mean);
    qsort(y, trials, sizeof(double), compare);
    const long q = (long)floor(0.9545 * trials + 0.5);
    long best = 0;
    for (long r = 1; r + q < trials; r++)
      if (y[r + q] - y[r] < y[best + q] - y[best]) best = r;
    printf(" %.9g %.9g", sqrt(squares / (trials - 1)), y[best]);
  }
  clock_gettime(CLOCK_MONOTONIC, &to);
  printf(" %.6f\n", (to.tv_sec - from.tv_sec) + 1e-9 * (to.tv_nsec - from.tv_nsec));
  return 0;
}
