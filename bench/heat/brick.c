/* A brick frozen by the plain explicit enthalpy loop: the rival of the split implicit solver.
 *
 *     cc -O3 -march=native -ffast-math brick.c -lm -o brick
 *     ./brick X_MM Y_MM Z_MM START_C AIR_C FILM GOAL_C NX NY NZ
 *
 * One octant of a brick of the reference lean meat (Chen's enthalpy, freezing from −1.7 °C), in air with a film in W/(m² K),
 * until the middle is at the goal. Cells carry their own enthalpy; flows are differences of the integral of conductivity; the
 * largest stable step. Its tables are not counted, as ours are not. Prints: seconds of work, seconds in the freezer, steps.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static const double TF = -1.7, RHO = 1050.0;

static double enthalpy(double t) {
    const double xs = 0.283, w = 0.717, b = 0.08496, l = 333.6;
    double tt = t < TF ? t : TF;
    double h = (tt + 40.0) * (1.55 + 1.26 * xs - (w - b) * l * TF / (-40.0 * tt));
    if (t > TF) h += (t - TF) * (4.19 - 2.30 * xs - 0.628 * xs * xs * xs);
    return RHO * 1e3 * h;
}

static double theta(double t) {
    return t < TF ? 1.5 * (t - TF) - 1.02 * TF * log(t / TF) : 0.48 * (t - TF);
}

/* θ over equal steps of enthalpy. */
enum { ROWS = 1 << 14 };
static double table[ROWS + 1], low, per_row, steepest;

static void tabulate(double from_c, double to_c) {
    low = enthalpy(from_c);
    per_row = (enthalpy(to_c) - low) / ROWS;
    for (int i = 0; i <= ROWS; i++) {
        double a = from_c, b = to_c, h = low + i * per_row;
        for (int k = 0; k < 80; k++) {
            double m = 0.5 * (a + b);
            if (enthalpy(m) < h) a = m; else b = m;
        }
        table[i] = theta(0.5 * (a + b));
        if (i > 0) steepest = fmax(steepest, (table[i] - table[i - 1]) / per_row);
    }
}

static double theta_of(double h) {
    double x = (h - low) / per_row;
    int i = (int)x;
    i = i < 0 ? 0 : i > ROWS - 1 ? ROWS - 1 : i;
    return table[i] + (x - i) * (table[i + 1] - table[i]);
}

static double temperature_of_theta(double th) {
    double a = -40.0, b = 40.0;
    for (int k = 0; k < 60; k++) {
        double m = 0.5 * (a + b);
        if (theta(m) < th) a = m; else b = m;
    }
    return 0.5 * (a + b);
}

int main(int argc, char **argv) {
    if (argc < 11) return 1;
    const int nx = atoi(argv[8]), ny = atoi(argv[9]), nz = atoi(argv[10]);
    const double dx = 5e-4 * atof(argv[1]) / nx, dy = 5e-4 * atof(argv[2]) / ny, dz = 5e-4 * atof(argv[3]) / nz;
    const double start = atof(argv[4]), air = atof(argv[5]), film = atof(argv[6]);
    struct timespec begin, end;
    tabulate(air - 0.5, start + 0.5);
    /* Nodes on the faces and in the middle; a cell at a face or a symmetry plane is half as large. */
    const int mx = nx + 1, my = ny + 1, mz = nz + 1, n = mx * my * mz;
    double *h = malloc(n * sizeof *h), *th = malloc(n * sizeof *th);
    for (int i = 0; i < n; i++) h[i] = enthalpy(start);
    const double cx = 1.0 / (dx * dx), cy = 1.0 / (dy * dy), cz = 1.0 / (dz * dz);
    const double dt = 0.499 / (steepest * (cx + cy + cz) + 0.5 * film * 4.2e-7 * (2 / dx + 2 / dy + 2 / dz));
    const double goal = theta(atof(argv[7]));
    double time = 0.0, before = 0.0;
    long steps = 0;
    const int middle = n - 1;
    for (int i = 0; i < n; i++) th[i] = theta_of(h[i]);
    /* Surface temperature of θ, for the film: a second table. */
    static double t_of[4097];
    const double th0 = theta(air - 1.0), dth = (theta(start + 1.0) - th0) / 4096;
    for (int i = 0; i <= 4096; i++) t_of[i] = temperature_of_theta(th0 + i * dth);
    #define T_OF(x) ({ double q = ((x) - th0) / dth; int j = (int)q; t_of[j] + (q - j) * (t_of[j + 1] - t_of[j]); })
    clock_gettime(CLOCK_MONOTONIC, &begin);
    while (th[middle] > goal) {
        before = th[middle];
        for (int k = 0; k < mz; k++)
            for (int j = 0; j < my; j++) {
                const int row = (k * my + j) * mx;
                double *restrict hr = h + row;
                const double *restrict c = th + row;
                const double *restrict yl = c - (j > 0 ? mx : 0), *restrict yh = c + (j < ny ? mx : -mx);
                const double *restrict zl = c - (k > 0 ? mx * my : 0), *restrict zh = c + (k < nz ? mx * my : -mx * my);
                const double wyl = j > 0 ? cy : 0.0, wyh = j > 0 ? cy : 2.0 * cy, wzl = k > 0 ? cz : 0.0, wzh = k > 0 ? cz : 2.0 * cz;
                for (int i = 1; i < nx; i++)
                    hr[i] += dt * (cx * (c[i - 1] - 2.0 * c[i] + c[i + 1]) + wyl * (yl[i] - c[i]) + wyh * (yh[i] - c[i]) +
                                   wzl * (zl[i] - c[i]) + wzh * (zh[i] - c[i]));
                hr[0] += dt * (2.0 * cx * (c[1] - c[0]) + wyl * (yl[0] - c[0]) + wyh * (yh[0] - c[0]) + wzl * (zl[0] - c[0]) +
                               wzh * (zh[0] - c[0]) + 2.0 / dx * film * (air - T_OF(c[0])));
                hr[nx] += dt * (2.0 * cx * (c[nx - 1] - c[nx]) + wyl * (yl[nx] - c[nx]) + wyh * (yh[nx] - c[nx]) +
                                wzl * (zl[nx] - c[nx]) + wzh * (zh[nx] - c[nx]));
                if (j == 0)
                    for (int i = 0; i < mx; i++) hr[i] += dt * 2.0 / dy * film * (air - T_OF(c[i]));
                if (k == 0)
                    for (int i = 0; i < mx; i++) hr[i] += dt * 2.0 / dz * film * (air - T_OF(c[i]));
            }
        for (int i = 0; i < n; i++) th[i] = theta_of(h[i]);
        time += dt;
        steps++;
    }
    time -= dt * (goal - th[middle]) / (before - th[middle]);
    clock_gettime(CLOCK_MONOTONIC, &end);
    printf("%.9f %.6f %ld\n", end.tv_sec - begin.tv_sec + 1e-9 * (end.tv_nsec - begin.tv_nsec), time, steps);
    free(h);
    free(th);
    return 0;
}
