#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"
#include "core/quantity/unit_dictionary.h"

namespace waybench {

namespace {

constexpr std::size_t kLongestText = 500;
constexpr int kDeepestNesting = 50;

/// number * numerator / denominator, in the base units of the dimension.
struct Term {
    double number = 0;
    double numerator = 1, denominator = 1;
    InputDimension dimension;
    bool namesEnergy = false;
    bool isShare = false;  ///< a percentage or a quotient of like quantities: never a length in disguise

    bool isBareNumber() const { return dimension.isPlain() && !isShare; }
    bool sameUnit(const Term& o) const { return numerator == o.numerator && denominator == o.denominator; }
    double inBase() const { return number * numerator / denominator; }
};

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

/// What people paste: typographic minus, times, special spaces and raised digits become their plain forms.
std::string plainForm(std::string_view text) {
    static constexpr std::pair<std::string_view, std::string_view> kForms[] = {
        {"\u2212", "-"}, {"\u00d7", "*"}, {"\u00b7", "*"}, {"\u22c5", "*"}, {"\u00a0", " "},
        {"\u202f", " "}, {"\u2009", " "}, {"\u00b2", "2"}, {"\u00b3", "3"}, {"\t", " "},
    };
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        bool replaced = false;
        for (const auto& [form, plain] : kForms) {
            if (text.substr(i, form.size()) != form) continue;
            out += plain;
            i += form.size();
            replaced = true;
            break;
        }
        if (!replaced) out += text[i++];
    }
    return out;
}

class Parser {
public:
    Parser(std::string_view typed, Unit unit)
        : typed_(typed), text_(plainForm(typed)), unit_(unit), field_(typedUnitOf(unit)) {}

    double run() {
        if (typed_.size() > kLongestText) fail("quantity_unreadable", "the text is too long for a quantity");
        skipSpace();
        if (atEnd()) throw InputFault("quantity_empty", "", "", "nothing is entered", "enter " + example());
        if (text_.find(',') != std::string::npos && text_.find('.') != std::string::npos)
            fail("quantity_ambiguous", "it has a comma and a point, and either could be the decimal sign");
        const Term result = sum();
        if (!atEnd()) unreadableHere();
        return inField(result);
    }

private:
    std::string example() const {
        const std::string symbol(symbolOf(unit_));
        return unit_ == Unit::none ? "a number such as 2.5" : "a value such as 2.5 " + symbol;
    }
    [[noreturn]] void fail(const std::string& code, const std::string& problem) const {
        const std::string shown(typed_.substr(0, 60));
        throw InputFault(code, "", "", "'" + shown + "' cannot be used: " + problem, "enter " + example());
    }
    [[noreturn]] void unreadableHere() const {
        if (atEnd()) fail("quantity_unreadable", "it ends where a number is expected");
        const std::string rest = text_.substr(at_, 20);
        if (isDigit(text_[at_]))
            fail("quantity_unreadable", "two numbers stand side by side at '" + rest + "' (no spaces inside a number)");
        fail("quantity_unreadable", "'" + rest + "' is not understood here");
    }

    bool atEnd() const { return at_ >= text_.size(); }
    char peek(std::size_t ahead = 0) const { return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0'; }
    void skipSpace() {
        while (peek() == ' ')
            ++at_;
    }
    bool take(char c) {
        if (peek() != c) return false;
        ++at_;
        skipSpace();
        return true;
    }
    static bool isSymbolCharacter(char c) {
        const auto u = static_cast<unsigned char>(c);
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '%' || c == '"' || u >= 0x80;
    }
    bool atNumber() const { return isDigit(peek()) || ((peek() == '.' || peek() == ',') && isDigit(peek(1))); }

    Term sum() {
        Term total = signedProduct();
        for (;;) {
            if (take('+'))
                total = added(total, signedProduct(), 1);
            else if (take('-'))
                total = added(total, signedProduct(), -1);
            else
                return total;
        }
    }

    Term signedProduct() {
        bool negative = false;
        for (int signs = 0; peek() == '-' || peek() == '+'; ++signs) {
            if (signs > 0) unreadableHere();
            negative = negative != (peek() == '-');
            take(peek());
        }
        Term t = product();
        if (negative) t.number = -t.number;
        return t;
    }

    Term product() {
        Term left = withUnits(factor());
        for (;;) {
            if (take('*')) {
                left = multiplied(left, withUnits(factorOrUnit()), 1);
            } else if (take('/')) {
                if (isSymbolCharacter(peek())) {
                    left = multiplied(left, bareUnit(), -1);
                } else if (left.isBareNumber()) {
                    // The unit belongs to the whole fraction: 1/8 in is an eighth of an inch.
                    left = multiplied(left, factor(), -1);
                    left = withUnits(left);
                } else {
                    left = multiplied(left, withUnits(factor()), -1);
                }
            } else {
                return left;
            }
        }
    }

    Term factorOrUnit() { return isSymbolCharacter(peek()) ? bareUnit() : factor(); }

    Term bareUnit() {
        Term one;
        one.number = 1;
        return scaled(one, unitHere());
    }

    Term factor() {
        if (peek() == '-' && (isDigit(peek(1)) || peek(1) == '(')) {
            take('-');
            Term t = factor();
            t.number = -t.number;
            return t;
        }
        if (take('(')) {
            if (++depth_ > kDeepestNesting) fail("quantity_unreadable", "the parentheses are nested too deep");
            Term inner = sum();
            if (!take(')')) fail("quantity_unreadable", "a parenthesis is not closed");
            --depth_;
            return inner;
        }
        if (!atNumber()) {
            refuseSpecialWord();
            unreadableHere();
        }
        Term t;
        t.number = number();
        t.number += fractionBehind();
        return t;
    }

    /// "1 1/2": a whole number and a common fraction.
    double fractionBehind() {
        if (!lastNumberWasWhole_ || !isDigit(peek()) || text_[at_ - 1] != ' ') return 0;
        std::size_t i = at_;
        const auto digits = [&] {
            const std::size_t begin = i;
            while (i < text_.size() && isDigit(text_[i]))
                ++i;
            return i - begin;
        };
        const std::size_t top = digits();
        if (top == 0 || top > 4 || i >= text_.size() || text_[i] != '/') return 0;
        ++i;
        const std::size_t bottom = digits();
        if (bottom == 0 || bottom > 4 || (i < text_.size() && (text_[i] == '.' || text_[i] == ','))) return 0;
        const double upper = number();
        take('/');
        const double lower = number();
        if (lower == 0) fail("quantity_not_finite", "it divides by zero");
        if (upper >= lower) fail("quantity_unreadable", "a whole number is followed by an improper fraction");
        return upper / lower;
    }

    double number() {
        const std::size_t begin = at_;
        std::string digits;
        int separators = 0;
        while (isDigit(peek()) || peek() == '.' || peek() == ',') {
            if (!isDigit(peek())) ++separators;
            digits += isDigit(peek()) ? peek() : '.';
            ++at_;
        }
        if (separators > 1)
            fail("quantity_ambiguous", "'" + text_.substr(begin, at_ - begin) + "' has more than one decimal sign");
        lastNumberWasWhole_ = separators == 0;
        const bool exponentFollows = (peek() == 'e' || peek() == 'E') &&
                                     (isDigit(peek(1)) || ((peek(1) == '+' || peek(1) == '-') && isDigit(peek(2))));
        if (exponentFollows) {
            lastNumberWasWhole_ = false;
            digits += 'e';
            ++at_;
            if (peek() == '-') digits += '-';
            if (!isDigit(peek())) ++at_;
            while (isDigit(peek())) {
                digits += peek();
                ++at_;
            }
        }
        double value = 0;
        const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
        if (error == std::errc::result_out_of_range)
            fail("quantity_not_finite", "the number is too large or too small to compute with");
        if (error != std::errc() || end != digits.data() + digits.size()) unreadableHere();
        skipSpace();
        return value;
    }

    void refuseSpecialWord() const {
        std::string word;
        for (std::size_t i = at_; i < text_.size() && isSymbolCharacter(text_[i]); ++i)
            word += static_cast<char>(text_[i] >= 'A' && text_[i] <= 'Z' ? text_[i] - 'A' + 'a' : text_[i]);
        if (word == "nan" || word == "inf" || word == "infinity")
            fail("quantity_not_finite", "it is not a finite number");
        if (typedUnit(text_.substr(at_, word.size())) != nullptr)
            fail("quantity_unreadable", "a number is missing before '" + text_.substr(at_, word.size()) + "'");
    }

    bool atUnit() const {
        if (isSymbolCharacter(peek())) return true;
        return text_.compare(at_, 5, "1/min") == 0 || text_.compare(at_, 3, "1/s") == 0;
    }

    /// The term times the unit behind it; "1 h 20 min" adds up as long as the units get smaller.
    Term withUnits(Term t) {
        if (!atUnit()) return t;
        t = scaled(t, unitHere());
        while (atNumber()) {
            const std::size_t before = at_;
            Term next;
            next.number = number();
            next.number += fractionBehind();
            if (!atUnit()) {
                at_ = before;
                unreadableHere();
            }
            next = scaled(next, unitHere());
            const bool smaller = next.numerator / next.denominator < t.numerator / t.denominator;
            if (!(next.dimension == t.dimension) || !smaller) {
                at_ = before;
                unreadableHere();
            }
            const double sum = t.inBase() + next.inBase();
            t.number = sum * next.denominator / next.numerator;
            t.numerator = next.numerator;
            t.denominator = next.denominator;
        }
        return t;
    }

    TypedUnit unitHere() {
        for (const std::string_view rate : {"1/min", "1/s"}) {
            if (text_.compare(at_, rate.size(), rate) != 0) continue;
            at_ += rate.size();
            skipSpace();
            return *typedUnit(rate == "1/min" ? "rpm" : "Hz");
        }
        TypedUnit unit = oneSymbol();
        for (;;) {
            const std::size_t before = at_;
            int sign = 1;
            if (peek() == '/' || peek() == '*') {
                sign = peek() == '/' ? -1 : 1;
                take(peek());
            }
            if (!isSymbolCharacter(peek())) {
                at_ = before;
                return unit;
            }
            const TypedUnit next = oneSymbol();
            unit.numerator *= sign > 0 ? next.numerator : next.denominator;
            unit.denominator *= sign > 0 ? next.denominator : next.numerator;
            unit.dimension = unit.dimension.plus(next.dimension, sign);
            unit.namesEnergy = false;
            unit.namesPlainShare = unit.namesPlainShare && unit.dimension.isPlain();
        }
    }

    TypedUnit oneSymbol() {
        const std::size_t begin = at_;
        while (isSymbolCharacter(peek()))
            ++at_;
        const std::string symbol = text_.substr(begin, at_ - begin);
        const TypedUnit* known = typedUnit(symbol);
        if (known == nullptr) {
            std::string problem = "the unit '" + symbol + "' is not known";
            const std::string_view close = symbolIgnoringCase(symbol);
            if (!close.empty()) problem += " (did you mean '" + std::string(close) + "'?)";
            fail("quantity_unreadable", problem);
        }
        TypedUnit unit = *known;
        const int power = exponentHere();
        for (int i = 1; i < power; ++i) {
            unit.numerator *= known->numerator;
            unit.denominator *= known->denominator;
            unit.dimension = unit.dimension.plus(known->dimension, 1);
        }
        skipSpace();
        return unit;
    }

    /// mm2, mm^2, s2; a 2 that begins another number ("1h2min") is not an exponent.
    int exponentHere() {
        const std::size_t caret = peek() == '^' ? 1 : 0;
        const char digit = peek(caret), behind = peek(caret + 1);
        if (digit != '2' && digit != '3') {
            if (caret > 0) unreadableHere();
            return 1;
        }
        if (caret == 0 && (isDigit(behind) || behind == '.' || behind == ',' || isSymbolCharacter(behind))) return 1;
        at_ += caret + 1;
        return digit - '0';
    }

    static Term scaled(Term t, const TypedUnit& unit) {
        t.numerator *= unit.numerator;
        t.denominator *= unit.denominator;
        t.dimension = t.dimension.plus(unit.dimension, 1);
        t.namesEnergy = t.namesEnergy || unit.namesEnergy;
        t.isShare = (t.isShare || unit.namesPlainShare) && t.dimension.isPlain();
        return t;
    }

    Term multiplied(const Term& a, const Term& b, int sign) const {
        Term t;
        if (sign < 0 && b.number == 0) fail("quantity_not_finite", "it divides by zero");
        t.number = sign > 0 ? a.number * b.number : a.number / b.number;
        t.numerator = a.numerator * (sign > 0 ? b.numerator : b.denominator);
        t.denominator = a.denominator * (sign > 0 ? b.denominator : b.numerator);
        t.dimension = a.dimension.plus(b.dimension, sign);
        const bool anyUnit = !a.isBareNumber() || !b.isBareNumber();
        t.isShare = anyUnit && t.dimension.isPlain();
        t.namesEnergy = (a.namesEnergy || b.namesEnergy) && !(t.dimension.isPlain());
        return t;
    }

    /// A bare number beside a quantity is in the field's unit.
    Term asField(Term t) const {
        if (!t.isBareNumber()) return t;
        t.numerator = field_.numerator;
        t.denominator = field_.denominator;
        t.dimension = field_.dimension;
        t.namesEnergy = field_.namesEnergy;
        return t;
    }

    Term added(Term a, Term b, int sign) const {
        if (a.isBareNumber() != b.isBareNumber()) {
            a = asField(a);
            b = asField(b);
        }
        if (!(a.dimension == b.dimension))
            fail("quantity_wrong_dimension",
                 "it adds " + nameOf(a.dimension) + " and " + nameOf(b.dimension) + ", which do not go together");
        Term t = a;
        if (a.sameUnit(b)) {
            t.number = a.number + sign * b.number;
        } else {
            t.number = a.inBase() + sign * b.inBase();
            t.numerator = t.denominator = 1;
        }
        t.isShare = a.isShare || b.isShare;
        t.namesEnergy = a.namesEnergy || b.namesEnergy;
        return t;
    }

    /// mass times acceleration is a force: 1 g = 1e-6 N s2/mm.
    static Term massAsForce(Term t) {
        const int power = t.dimension.exponents[InputDimension::mass];
        for (int i = 0; i < std::abs(power); ++i)
            (power > 0 ? t.denominator : t.numerator) *= 1e6;
        t.dimension.exponents[InputDimension::mass] = 0;
        t.dimension.exponents[InputDimension::force] += power;
        t.dimension.exponents[InputDimension::time] += 2 * power;
        t.dimension.exponents[InputDimension::length] -= power;
        return t;
    }

    double inField(Term t) const {
        t = asField(t);
        if (!(t.dimension == field_.dimension) && massAsForce(t).dimension == field_.dimension) t = massAsForce(t);
        const bool energyForMoment = unit_ == Unit::newton_millimetre && t.namesEnergy;
        if (!(t.dimension == field_.dimension) || energyForMoment) {
            const std::string is = energyForMoment ? "an energy" : t.isShare ? "a ratio" : nameOf(t.dimension);
            const std::string wanted = unit_ == Unit::newton_millimetre ? "a moment"
                                       : field_.namesEnergy             ? "an energy"
                                                                        : nameOf(field_.dimension);
            fail("quantity_wrong_dimension", "it is " + is + ", and " + wanted + " is asked for");
        }
        double value = t.number;
        if (t.numerator != field_.numerator || t.denominator != field_.denominator)
            value = t.number * (t.numerator * field_.denominator) / (t.denominator * field_.numerator);
        if (!std::isfinite(value)) fail("quantity_not_finite", "the result is not a finite number");
        return value == 0 ? 0.0 : value;  // never -0
    }

    std::string_view typed_;
    std::string text_;
    Unit unit_;
    TypedUnit field_;
    std::size_t at_ = 0;
    int depth_ = 0;
    bool lastNumberWasWhole_ = false;
};

}  // namespace

double parseQuantity(std::string_view text, Unit unit) {
    return Parser(text, unit).run();
}

}  // namespace waybench
