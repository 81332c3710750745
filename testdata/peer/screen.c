/*
 * The linear screen of testdata/rigs/four.yaml, written a second time, for one
 * rig alone, as a yardstick of speed and a second opinion on the numbers. The
 * formulas are those that objective and its packages state. It shares no code
 * with them: sizes are fixed, parts are written out, and the assignment of modes
 * tries all orders.
 *
 *   screen INPUT OUTPUT ROUNDS
 *
 * INPUT:  native doubles: number of points, gravity, drawing time, then 17
 *         coordinates a point, in the order of the rig's unknowns.
 * OUTPUT: the result below of every point, in native doubles.
 * It prints the least CPU time of ROUNDS rounds, in nanoseconds a point.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { N = 4, UNKNOWNS = 17, LIMITS = 11 };

enum { A4, B4, M4T, M4B, R3, L3, P3, H3, M3, A2, B2, M2, R1, L1, P1, H1, M1 };

static const double range[UNKNOWNS][2] = {
    {0.150, 0.450}, {0.200, 0.550}, {1, 8}, {1, 9},
    {0.100, 0.450}, {0.120, 0.450}, {-0.050, 0.050}, {-0.080, 0.080}, {3, 24},
    {0.120, 0.450}, {0.060, 0.450}, {2, 30},
    {0.150, 0.600}, {0.200, 0.600}, {-0.050, 0.050}, {-0.120, 0.120}, {12, 70},
};

static const double target[N] = {4.6, 4.6, 2.3, 2.3};
static const double PERIOD_WITHIN = 0.01, RATIO = 2, RATIO_WITHIN = 0.005, SLOSH_LIMIT = 0.04;
static const double GYRATION = 0.009, HEIGHT = 0.050, THICK = 0.030, DENSITY = 690;
#define DEGREE (M_PI / 180)
static const double LEVEL_LIMIT = 0.5 * DEGREE, SWING = 4 * DEGREE;

static const double LEAST_MOMENT = 1e-6, JACOBI_ZERO = 1e-31, EQUAL_MODES = 1e-12;
static const double NEAR_RESONANCE = 0.2, SEED_SHARE = 0.01, AGM_TOLERANCE = 1e-9, CEILING = 1e6;

typedef struct {
    double exists;
    double tilt[N], period[N], share[N], mass[N], hanging[N];
    double ratio[2];
    double slosh, inflow, gap, beat, leak;
    double detuning, kappa, exchange;
    double total_mass, wall_moment;
    double use[LIMITS];
    double worst, score;
} result;

typedef struct { double m, mx, my, j, reach; } sum;

typedef struct { double low[UNKNOWNS], high[UNKNOWNS], g, time; } setting;

static inline void add(sum *s, double m, double x, double y, double inertia)
{
    double r2 = x * x + y * y;
    s->m += m;
    s->mx += m * x;
    s->my += m * y;
    s->j += inertia + m * r2;
    s->reach += m * sqrt(r2);
}

static inline void bar(sum *s, double fx, double fy, double tx, double ty)
{
    double dx = tx - fx, dy = ty - fy, length = sqrt(dx * dx + dy * dy);
    double m = DENSITY * HEIGHT * THICK * length;
    add(s, m, 0.5 * (fx + tx), 0.5 * (fy + ty), m * (length * length + HEIGHT * HEIGHT) / 12);
}

static inline void bob(sum *s, double m, double x, double y) { add(s, m, x, y, GYRATION * m); }

/* A coordinate as a value: single precision, inside its range. */
static inline double at(const setting *c, int k, double t)
{
    t = t > 0 ? (t > 1 ? 1 : t) : 0;
    double v = (float)(range[k][0] + t * (range[k][1] - range[k][0]));
    return v < c->low[k] ? c->low[k] : v > c->high[k] ? c->high[k] : v;
}

static void weigh(const double *v, sum s[N], double pivot[N][2])
{
    memset(s, 0, N * sizeof *s);
    bar(&s[0], -v[L1], 0, v[R1], 0);
    bob(&s[0], v[M1], v[R1], v[H1]);
    bar(&s[1], 0, v[A2], 0, -v[B2]);
    bob(&s[1], v[M2], 0, v[A2]);
    bar(&s[2], -v[L3], 0, v[R3], 0);
    bob(&s[2], v[M3], -v[L3], v[H3]);
    bar(&s[3], 0, v[A4], 0, -v[B4]);
    bob(&s[3], v[M4T], 0, v[A4]);
    bob(&s[3], v[M4B], 0, -v[B4]);
    pivot[0][0] = 0, pivot[0][1] = 0;
    pivot[1][0] = -v[L1], pivot[1][1] = v[P1];
    pivot[2][0] = 0, pivot[2][1] = -v[B2];
    pivot[3][0] = v[R3], pivot[3][1] = v[P3];
}

typedef struct {
    double mu[N], s[N], j[N], tilt[N], a[N][N], b[N][N]; /* a, b: i < j */
} rest;

static int settle(rest *r, const sum *sum, double pivot[N][2])
{
    double sx[N], sy[N], reach[N], sin[N], cos[N];
    for (int i = 0; i < N; i++) {
        r->mu[i] = sum[i].m, sx[i] = sum[i].mx, sy[i] = sum[i].my;
        reach[i] = sum[i].reach, r->j[i] = sum[i].j;
    }
    for (int i = N - 1; i > 0; i--) {
        double x = pivot[i][0], y = pivot[i][1], d2 = x * x + y * y, mu = r->mu[i];
        r->mu[i - 1] += mu;
        sx[i - 1] += mu * x;
        sy[i - 1] += mu * y;
        reach[i - 1] += mu * sqrt(d2);
        r->j[i - 1] += mu * d2;
    }
    for (int i = 0; i < N; i++) {
        double s = sqrt(sx[i] * sx[i] + sy[i] * sy[i]);
        if (!(s > LEAST_MOMENT * reach[i]))
            return 0;
        r->s[i] = s;
        sin[i] = -sx[i] / s, cos[i] = -sy[i] / s;
        r->tilt[i] = atan2(sin[i], cos[i]);
    }
    for (int i = 0; i < N; i++)
        for (int j = i + 1; j < N; j++) { /* a chain: j hangs from i through i + 1 */
            double x = pivot[i + 1][0], y = pivot[i + 1][1];
            r->a[i][j] = r->s[j] * (cos[i] * x - sin[i] * y);
            r->b[i][j] = r->s[j] * (sin[i] * x + cos[i] * y);
        }
    return 1;
}

typedef struct { double omega[N], u[N][N], v[N][N]; int own[N]; } modes; /* u[mode][pendulum] */

static inline void turn(double a[N][N], double u[N][N], int p, int q)
{
    double x = a[p][q], h = 0.5 * (a[q][q] - a[p][p]), root = sqrt(h * h + x * x);
    double t = x / (h >= 0 ? h + root : h - root), c = 1 / sqrt(t * t + 1), s = t * c;
    a[p][p] -= t * x;
    a[q][q] += t * x;
    a[p][q] = a[q][p] = 0;
    for (int k = 0; k < N; k++) {
        if (k != p && k != q) {
            double y = a[p][k], z = a[q][k];
            a[p][k] = a[k][p] = c * y - s * z;
            a[q][k] = a[k][q] = s * y + c * z;
        }
        double y = u[p][k], z = u[q][k];
        u[p][k] = c * y - s * z, u[q][k] = s * y + c * z;
    }
}

static void assign(modes *m)
{
    double best = -1;
    for (int a = 0; a < N; a++)
        for (int b = 0; b < N; b++)
            for (int c = 0; c < N; c++) {
                if (a == b || a == c || b == c)
                    continue;
                int d = 6 - a - b - c;
                double sum = m->u[a][0] * m->u[a][0] + m->u[b][1] * m->u[b][1] +
                             m->u[c][2] * m->u[c][2] + m->u[d][3] * m->u[d][3];
                if (sum > best) {
                    best = sum;
                    m->own[0] = a, m->own[1] = b, m->own[2] = c, m->own[3] = d;
                }
            }
}

/* The modes of A = K^-1/2 M K^-1/2 by cyclic Jacobi, rising frequency. */
static int solve(modes *m, const rest *r, double g)
{
    double a[N][N], u[N][N] = {{1, 0, 0, 0}, {0, 1, 0, 0}, {0, 0, 1, 0}, {0, 0, 0, 1}}, ik[N];
    for (int i = 0; i < N; i++) {
        double k = g * r->s[i];
        ik[i] = 1 / sqrt(k);
        a[i][i] = r->j[i] / k;
    }
    for (int i = 0; i < N; i++)
        for (int j = i + 1; j < N; j++)
            a[i][j] = a[j][i] = -r->b[i][j] * ik[i] * ik[j];
    for (int sweep = 0, turned = 1; turned && sweep < 40; sweep++) {
        turned = 0;
        for (int p = 0; p < N - 1; p++)
            for (int q = p + 1; q < N; q++)
                if (a[p][q] * a[p][q] > JACOBI_ZERO * fabs(a[p][p] * a[q][q]))
                    turn(a, u, p, q), turned = 1;
    }
    int order[N];
    for (int i = 0; i < N; i++) {
        int j = i;
        for (; j > 0 && a[i][i] > a[order[j - 1]][order[j - 1]]; j--)
            order[j] = order[j - 1];
        order[j] = i;
    }
    for (int k = 0; k < N; k++) {
        int from = order[k];
        if (!(a[from][from] > 0))
            return 0;
        double w = 1 / sqrt(a[from][from]), largest = 0;
        for (int i = 0; i < N; i++)
            if (fabs(u[from][i]) > fabs(largest))
                largest = u[from][i];
        double sign = largest < 0 ? -1 : 1;
        m->omega[k] = w;
        for (int i = 0; i < N; i++) {
            double x = sign * u[from][i];
            m->u[k][i] = x;
            m->v[k][i] = x * ik[i] * w;
        }
    }
    assign(m);
    return 1;
}

static void separate(result *o, const modes *m, const rest *r, double time)
{
    double half[N][N] = {{0}}, slosh[N][N] = {{0}}, e[N];
    for (int k = 0; k < N; k++)
        for (int l = k + 1; l < N; l++) {
            double turned = (m->omega[l] - m->omega[k]) * time;
            half[k][l] = half[l][k] = turned < M_PI ? 2 * sin(0.5 * turned) : 2;
        }
    o->slosh = 0;
    for (int i = 0; i < N; i++)
        for (int j = i + 1; j < N; j++) {
            double c[N], least = 0;
            for (int k = 0; k < N; k++)
                c[k] = fabs(m->u[k][i] * m->u[k][j]), least += c[k];
            for (int p = 0; p < N; p++) {
                double sum = 0;
                for (int k = 0; k < N; k++)
                    sum += c[k] * half[p][k];
                least = fmin(least, sum);
            }
            slosh[i][j] = slosh[j][i] = least * least;
            o->slosh = fmax(o->slosh, least * least);
        }
    o->inflow = 0;
    for (int i = 0; i < N; i++)
        e[i] = r->s[i] * SWING * SWING;
    for (int j = 0; j < N; j++) {
        double x = 0;
        for (int i = 0; i < N; i++)
            x = fmax(x, slosh[i][j] * e[i]);
        o->inflow = fmax(o->inflow, sqrt(x / e[j]));
    }
    o->gap = 2, o->beat = 0;
    for (int k = 0; k + 1 < N; k++) {
        double d = m->omega[k + 1] - m->omega[k], gap = d / m->omega[k + 1];
        if (gap < o->gap)
            o->gap = gap, o->beat = d > EQUAL_MODES * m->omega[k + 1] ? 2 * M_PI / d : 0;
    }
    o->leak = 0;
    for (int i = 0; i < N; i++)
        o->leak = fmax(o->leak, 1 - o->share[i]);
}

typedef struct { double b[N], action[N], energy; } start;

static void release(start *s, const modes *m, const rest *r, double g)
{
    double x[N], largest = 0;
    for (int i = 0; i < N; i++)
        x[i] = sqrt(g * r->s[i]) * SWING;
    for (int k = 0; k < N; k++) {
        double q = 0;
        for (int i = 0; i < N; i++)
            q += m->u[k][i] * x[i];
        s->b[k] = q / sqrt(2 * m->omega[k]);
        largest = fmax(largest, fabs(s->b[k]));
    }
    s->energy = 0;
    for (int k = 0; k < N; k++) {
        if (fabs(s->b[k]) < SEED_SHARE * largest)
            s->b[k] = copysign(SEED_SHARE * largest, s->b[k]);
        s->action[k] = s->b[k] * s->b[k];
        s->energy += m->omega[k] * s->action[k];
    }
}

static double couple(const modes *m, const rest *r, int a, int b, int c)
{
    double wa = m->omega[a], wb = m->omega[b], wc = m->omega[c], sum = 0;
    const double *va = m->v[a], *vb = m->v[b], *vc = m->v[c];
    for (int i = 0; i < N; i++)
        for (int j = i + 1; j < N; j++) {
            double bc = vb[i] * vc[j] + vc[i] * vb[j];
            double ac = va[i] * vc[j] + vc[i] * va[j];
            double ab = va[i] * vb[j] + vb[i] * va[j];
            sum += r->a[i][j] * (wb * wc * (va[j] - va[i]) * bc + wa * wc * (vb[j] - vb[i]) * ac - wa * wb * (vc[j] - vc[i]) * ab);
        }
    return a == b ? 0.5 * sum * sqrt(2 / wc) / (2 * wa) : sum / sqrt(2 * wa * wb * wc);
}

static double complete_k(double m)
{
    if (m >= 1)
        return INFINITY;
    double a = 1, b = sqrt(1 - m);
    for (int i = 0; i < 12 && a - b > AGM_TOLERANCE * a; i++) {
        double mean = 0.5 * (a + b);
        b = sqrt(a * b), a = mean;
    }
    return M_PI / (a + b);
}

static double sn_squared(double u, double m)
{
    if (1 - m < AGM_TOLERANCE * AGM_TOLERANCE)
        return tanh(u) * tanh(u);
    double a[13], c[13], b = sqrt(1 - m), scale = 1;
    int n = 0;
    a[0] = 1, c[0] = sqrt(m);
    while (n < 12 && c[n] > AGM_TOLERANCE * a[n]) {
        a[n + 1] = 0.5 * (a[n] + b), c[n + 1] = 0.5 * (a[n] - b);
        b = sqrt(a[n] * b);
        n++, scale *= 2;
    }
    double phi = scale * a[n] * u;
    for (; n > 0; n--)
        phi = 0.5 * (phi + asin(c[n] / a[n] * sin(phi)));
    return sin(phi) * sin(phi);
}

/* How far an action moves from start, between two roots of its cubic. */
static double sweep(double from, double lo, double hi, double lead, double time)
{
    double r1 = lo, r2 = from, r3 = hi;
    int low = from <= lo;
    if (low)
        r1 = from, r2 = lo;
    else if (from > hi)
        r2 = hi, r3 = from;
    double width = r2 - r1, span = r3 - r1;
    if (!(width > 0) || !(span > 0))
        return 0;
    double m = width / span, u = 0.5 * sqrt(lead * span) * time;
    if (u >= complete_k(m))
        return width;
    double s2 = sn_squared(u, m);
    return low ? width * s2 : width * (1 - m) * s2 / (1 - m * s2);
}

static double exchange(const start *s, const modes *m, int a, int b, int c, double kappa, double sigma, double time)
{
    double k2 = kappa * kappa, from = s->action[c], c3, c2, c1;
    if (k2 == 0 || s->energy == 0)
        return 0;
    double kc = fabs(kappa) * (kappa * s->b[a] * s->b[b] * s->b[c] > 0 ? -1 : 1);
    double ia = s->action[a], ib = s->action[b];
    if (a == b) {
        double j = ia + 2 * from, h = sigma * from + kc * ia * sqrt(from);
        c3 = 4 * k2, c2 = -4 * j * k2 - sigma * sigma, c1 = k2 * j * j + 2 * h * sigma;
    } else {
        double j1 = ia + from, j2 = ib + from, h = sigma * from + kc * sqrt(ia * ib * from);
        c3 = k2, c2 = -k2 * (j1 + j2) - sigma * sigma, c1 = k2 * j1 * j2 + 2 * h * sigma;
    }
    double q1 = c2 + c3 * from, q0 = c1 + from * q1;
    double root = sqrt(fmax(0, q1 * q1 - 4 * c3 * q0)), q = -0.5 * (q1 + copysign(root, q1));
    double lo = q == 0 ? 0 : q / c3, hi = q == 0 ? 0 : q0 / q;
    if (lo > hi) {
        double swap = lo;
        lo = hi, hi = swap;
    }
    return m->omega[c] * sweep(from, lo, hi, c3, time) / s->energy;
}

static void triads(result *o, const modes *m, const rest *r, double g, double time)
{
    start s;
    int started = 0, found = 0;
    o->detuning = o->kappa = o->exchange = 0;
    for (int c = N - 1; c > 0; c--)
        for (int a = 0; a < c; a++)
            for (int b = a; b < c; b++) {
                double sigma = m->omega[c] - m->omega[a] - m->omega[b];
                if (fabs(sigma) > NEAR_RESONANCE * m->omega[c])
                    continue;
                if (!started)
                    release(&s, m, r, g), started = 1;
                double kappa = couple(m, r, a, b, c), e = exchange(&s, m, a, b, c, kappa, sigma, time);
                if (!found || e > o->exchange || (e == o->exchange && fabs(kappa) > o->kappa))
                    o->detuning = sigma / m->omega[c], o->kappa = fabs(kappa), o->exchange = e, found = 1;
            }
}

static inline double use(double demand, double allowed) { return fmin(demand / allowed, CEILING); }

static void judge(result *o)
{
    double sum = 0;
    for (int i = 0; i < N; i++) {
        o->use[i] = use(fabs(o->period[i] / target[i] - 1), PERIOD_WITHIN);
        o->use[i + 7] = use(fabs(o->tilt[i]), LEVEL_LIMIT);
    }
    for (int i = 0; i < 2; i++) {
        o->ratio[i] = o->period[i] / o->period[i + 2];
        o->use[i + 4] = use(fabs(o->ratio[i] / RATIO - 1), RATIO_WITHIN);
    }
    o->use[6] = use(o->slosh, SLOSH_LIMIT);
    o->worst = 0;
    for (int i = 0; i < LIMITS; i++) {
        double u2 = o->use[i] * o->use[i];
        sum += u2 * u2;
        o->worst = fmax(o->worst, o->use[i]);
    }
    o->score = sqrt(sqrt(sum / LIMITS));
}

static void screen(result *o, const setting *c, const double *point)
{
    double v[UNKNOWNS], pivot[N][2];
    sum parts[N];
    rest r;
    modes m;
    o->exists = 0;
    for (int k = 0; k < UNKNOWNS; k++)
        v[k] = at(c, k, point[k]);
    weigh(v, parts, pivot);
    if (!settle(&r, parts, pivot) || !solve(&m, &r, c->g))
        return;
    o->exists = 1;
    for (int i = 0; i < N; i++) {
        o->tilt[i] = r.tilt[i];
        o->period[i] = 2 * M_PI / m.omega[m.own[i]];
        o->share[i] = m.u[m.own[i]][i] * m.u[m.own[i]][i];
        o->mass[i] = parts[i].m;
        o->hanging[i] = c->g * r.mu[i];
    }
    o->total_mass = r.mu[0];
    o->wall_moment = -c->g * r.mu[0] * pivot[0][0];
    separate(o, &m, &r, c->time);
    triads(o, &m, &r, c->g, c->time);
    judge(o);
}

/* The single-precision ends inside a range. */
static void bound(setting *c)
{
    for (int k = 0; k < UNKNOWNS; k++) {
        float low = range[k][0], high = range[k][1];
        c->low[k] = low < range[k][0] ? nextafterf(low, INFINITY) : low;
        c->high[k] = high > range[k][1] ? nextafterf(high, -INFINITY) : high;
    }
}

static double cpu(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return t.tv_sec * 1e9 + t.tv_nsec;
}

int main(int argc, char **argv)
{
    setting c;
    double head[3], best = INFINITY;
    FILE *in = argc == 4 ? fopen(argv[1], "rb") : NULL;
    if (!in || fread(head, sizeof *head, 3, in) != 3) {
        fprintf(stderr, "usage: screen INPUT OUTPUT ROUNDS\n");
        return 2;
    }
    size_t n = head[0], rounds = atoi(argv[3]);
    double *points = malloc(n * UNKNOWNS * sizeof *points);
    result *out = calloc(n, sizeof *out);
    if (!points || !out || fread(points, sizeof *points, n * UNKNOWNS, in) != n * UNKNOWNS)
        return 1;
    fclose(in);
    c.g = head[1], c.time = head[2];
    bound(&c);
    for (size_t round = 0; round < rounds; round++) {
        double began = cpu();
        for (size_t i = 0; i < n; i++)
            screen(&out[i], &c, points + i * UNKNOWNS);
        best = fmin(best, (cpu() - began) / n);
    }
    FILE *to = fopen(argv[2], "wb");
    if (!to || fwrite(out, sizeof *out, n, to) != n || fclose(to))
        return 1;
    printf("%.3f\n", best);
    return 0;
}
