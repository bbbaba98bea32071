#include "core/structure/brick.h"

#include <Eigen/Cholesky>
#include <cmath>

namespace waybench::statics {

namespace {

constexpr std::size_t kOuter = 7;  // x, y, z, xy, yz, zx, xyz; the constant carries no strain
constexpr int kVoigt[3][3] = {{0, 3, 5}, {3, 1, 4}, {5, 4, 2}};
constexpr std::size_t kPower[3] = {1, 3, 9};
constexpr int kExponents[kOuter][3] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 1, 0}, {0, 1, 1}, {1, 0, 1}, {1, 1, 1}};

double cornerSign(int corner, int axis) {
    return (corner >> axis & 1) != 0 ? 1.0 : -1.0;
}

/// Polynomial amplitudes from corner values: amplitude of function m = sum over corners of this * value.
double fromCorner(std::size_t function, int corner) {
    double sign = 0.125;
    for (int axis = 0; axis < 3; ++axis)
        if (kExponents[function][axis] != 0) sign *= cornerSign(corner, axis);
    return sign;
}

}  // namespace

std::array<double, 8> shapeAt(const Vec3& x) {
    std::array<double, 8> n;
    for (int corner = 0; corner < 8; ++corner)
        n[std::size_t(corner)] = 0.125 * (1 + cornerSign(corner, 0) * x[0]) * (1 + cornerSign(corner, 1) * x[1]) *
                                 (1 + cornerSign(corner, 2) * x[2]);
    return n;
}

Brick::Brick(const Vec3& size_mm, std::span<const CellRegion> regions) {
    const double jacobian = size_mm.prod() / 8;
    const Vec3 scale = 2 * size_mm.cwiseInverse();  // d(cell coordinate)/d(mm)
    double volume = 0;
    Vec3 centre = Vec3::Zero();
    for (const CellRegion& r : regions) {
        volume += r.moments.volume();
        for (int axis = 0; axis < 3; ++axis)
            centre[axis] += r.moments.value[kPower[axis]];
    }
    centre /= volume;

    for (std::size_t f = 0; f < kOuter; ++f)
        for (int axis = 0; axis < 3; ++axis) {
            if (kExponents[f][axis] == 0) continue;
            std::size_t monomial = 0;
            for (int other = 0; other < 3; ++other)
                if (other != axis) monomial += std::size_t(kExponents[f][other]) * kPower[other];
            terms_.push_back({f, axis, monomial, {scale[axis], scale[axis]}});
        }
    functions_ = kOuter;
    for (int axis = 0; axis < 3; ++axis, ++functions_) {
        terms_.push_back({functions_, axis, kPower[axis], {scale[axis], scale[axis]}});
        const double shift = -centre[axis] * scale[axis];
        terms_.push_back({functions_, axis, 0, {shift, shift}});
    }
    if (regions.size() == 2) {
        Vec3 apart = Vec3::Zero();
        for (int axis = 0; axis < 3; ++axis)
            apart[axis] = (regions[1].moments.value[kPower[axis]] / regions[1].moments.volume() -
                           regions[0].moments.value[kPower[axis]] / regions[0].moments.volume()) *
                          size_mm[axis] / 2;
        // Below a tenth of the cell apart the parts interleave (three layers in a cell): no single normal.
        if (apart.norm() > 0.1 * size_mm.minCoeff()) {
            const Vec3 normal = apart.normalized();
            const double first = regions[1].moments.volume() / volume, second = -regions[0].moments.volume() / volume;
            for (int axis = 0; axis < 3; ++axis)
                if (std::abs(normal[axis]) > 1e-9)
                    terms_.push_back({functions_, axis, 0, {normal[axis] * first, normal[axis] * second}});
            ++functions_;
        }
    }

    const auto n = Eigen::Index(3 * functions_);
    Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, 0, 33, 33> full(n, n);
    full.setZero();
    for (std::size_t r = 0; r < regions.size(); ++r) {
        const Mat6& d = *regions[r].stiffness_MPa;
        for (const Term& s : terms_)
            for (const Term& t : terms_) {
                if (t.function < s.function) continue;
                const double w =
                    jacobian * s.coefficient[r] * t.coefficient[r] * regions[r].moments.value[s.monomial + t.monomial];
                if (w == 0) continue;
                for (int k = 0; k < 3; ++k)
                    for (int l = 0; l < 3; ++l)
                        full(Eigen::Index(3 * s.function) + k, Eigen::Index(3 * t.function) + l) +=
                            w * d(kVoigt[k][s.axis], kVoigt[l][t.axis]);
            }
    }
    full.template triangularView<Eigen::StrictlyLower>() = full.transpose();

    constexpr Eigen::Index outer = 3 * kOuter;
    const Eigen::Index inner = n - outer;
    Eigen::MatrixXd internal = full.bottomRightCorner(inner, inner);
    // Modes that the material part hardly spans would make this singular; the floor leaves them without effect.
    internal.diagonal().array() += 1e-9 * full.diagonal().head(9).mean();
    internalFromOuter_ = -internal.llt().solve(full.bottomLeftCorner(inner, outer).eval());
    const Eigen::Matrix<double, outer, outer> condensed =
        full.topLeftCorner(outer, outer) + full.topRightCorner(outer, inner) * internalFromOuter_;

    Eigen::Matrix<double, outer, 24> half;  // condensed * T, T = corner values to amplitudes
    for (int corner = 0; corner < 8; ++corner)
        for (int k = 0; k < 3; ++k) {
            Eigen::Matrix<double, outer, 1> column = Eigen::Matrix<double, outer, 1>::Zero();
            for (std::size_t f = 0; f < kOuter; ++f)
                column += fromCorner(f, corner) * condensed.col(Eigen::Index(3 * f) + k);
            half.col(3 * corner + k) = column;
        }
    for (int corner = 0; corner < 8; ++corner)
        for (int k = 0; k < 3; ++k) {
            Eigen::Matrix<double, 1, 24> row = Eigen::Matrix<double, 1, 24>::Zero();
            for (std::size_t f = 0; f < kOuter; ++f)
                row += fromCorner(f, corner) * half.row(Eigen::Index(3 * f) + k);
            stiffness_.row(3 * corner + k) = row;
        }
    stiffness_ = (0.5 * (stiffness_ + stiffness_.transpose())).eval();
}

Eigen::VectorXd Brick::amplitudes(const Vector24& u) const {
    constexpr Eigen::Index outer = 3 * kOuter;
    Eigen::VectorXd q = Eigen::VectorXd::Zero(Eigen::Index(3 * functions_));
    for (std::size_t f = 0; f < kOuter; ++f)
        for (int corner = 0; corner < 8; ++corner)
            q.segment<3>(Eigen::Index(3 * f)) += fromCorner(f, corner) * u.segment<3>(3 * corner);
    q.tail(q.size() - outer) = internalFromOuter_ * q.head(outer);
    return q;
}

Vector6 Brick::strainAt(const Eigen::VectorXd& amplitudes, const Vec3& x, std::size_t region) const {
    Vector6 strain = Vector6::Zero();
    for (const Term& t : terms_) {
        double value = t.coefficient[region];
        std::size_t m = t.monomial;
        for (int axis = 0; axis < 3; ++axis, m /= 3)
            for (std::size_t e = m % 3; e > 0; --e)
                value *= x[axis];
        for (int k = 0; k < 3; ++k)
            strain[kVoigt[k][t.axis]] += value * amplitudes[Eigen::Index(3 * t.function) + k];
    }
    return strain;
}

}  // namespace waybench::statics
