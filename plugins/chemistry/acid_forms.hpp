// How much of an acid stands in each of its forms, in bare numbers: what every balance of charges counts.
#pragma once

namespace vatwright::chemistry::kernel {

// What each step of dissociation is multiplied by: an ion of z charges has the activity coefficient γ^(z²), so that the
// steps carry γ, γ³, γ⁵.
struct Steps {
  double s1, s2, s3;

  Steps(double proton_activity, double gamma) : s1(1 / (proton_activity * gamma)) {
    const double square = gamma * gamma;
    const double per_square = 1 / square, by_square = s1 * per_square;
    s2 = s1 * by_square;
    s3 = s2 * by_square * per_square;
  }
};

// An acid's constants, multiplied: of one, two and three protons.
struct Products {
  double k1, k12, k123;
};

// Means of z, z², z³ and z⁴ over the forms of an acid.
struct Forms {
  double t1, t2, t3, one;

  Forms(const Products& k, const Steps& s)
      : t1(k.k1 * s.s1), t2(k.k12 * s.s2), t3(k.k123 * s.s3), one(1 / (1 + t1 + t2 + t3)) {}

  double z1() const { return one * (t1 + 2 * t2 + 3 * t3); }
  double z2() const { return one * (t1 + 4 * t2 + 9 * t3); }
  double z3() const { return one * (t1 + 8 * t2 + 27 * t3); }
  double z4() const { return one * (t1 + 16 * t2 + 81 * t3); }
};

}  // namespace vatwright::chemistry::kernel
