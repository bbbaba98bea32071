#pragma once
#include <sstream>
#include <string>
#include <vector>

#include "core/geometry/import/dxf.h"

namespace waybench::test {

/// Writes DXF text for tests, entity by entity.
class DxfText {
public:
    /// @param insertUnits value of $INSUNITS, none when negative
    explicit DxfText(int insertUnits = 4) : insertUnits_(insertUnits) {}
    template <class Value>
    DxfText& add(int code, const Value& value) {
        std::ostringstream group;
        group.precision(17);
        group << code << "\n" << value << "\n";
        (inBlocks_ ? blocks_ : entities_) += group.str();
        return *this;
    }
    DxfText& line(double x0, double y0, double x1, double y1) {
        return add(0, "LINE").add(8, "0").add(10, x0).add(20, y0).add(11, x1).add(21, y1);
    }
    DxfText& circle(double x, double y, double r) {
        return add(0, "CIRCLE").add(8, "0").add(10, x).add(20, y).add(40, r);
    }
    DxfText& arc(double x, double y, double r, double from, double to) {
        return add(0, "ARC").add(8, "0").add(10, x).add(20, y).add(40, r).add(50, from).add(51, to);
    }
    struct Corner {
        double x, y, bulge = 0;
    };
    DxfText& polyline(const std::vector<Corner>& corners, bool closed = true) {
        add(0, "LWPOLYLINE").add(8, "0").add(90, corners.size()).add(70, closed ? 1 : 0);
        for (const Corner& c : corners) {
            add(10, c.x).add(20, c.y);
            if (c.bulge != 0) add(42, c.bulge);
        }
        return *this;
    }
    DxfText& oldPolyline(const std::vector<Corner>& corners) {
        add(0, "POLYLINE").add(8, "0").add(66, 1).add(70, 1);
        for (const Corner& c : corners)
            add(0, "VERTEX").add(8, "0").add(10, c.x).add(20, c.y).add(42, c.bulge);
        return add(0, "SEQEND");
    }
    DxfText& rectangle(double x0, double y0, double x1, double y1) {
        return polyline({{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}});
    }
    DxfText& beginBlock(const std::string& name, double x = 0, double y = 0) {
        inBlocks_ = true;
        return add(0, "BLOCK").add(8, "0").add(2, name).add(70, 0).add(10, x).add(20, y);
    }
    DxfText& endBlock() {
        add(0, "ENDBLK");
        inBlocks_ = false;
        return *this;
    }
    DxfText& insert(const std::string& name, double x, double y) {
        return add(0, "INSERT").add(8, "0").add(2, name).add(10, x).add(20, y);
    }
    std::string text() const {
        std::string head;
        if (insertUnits_ >= 0) head = "9\n$INSUNITS\n70\n" + std::to_string(insertUnits_) + "\n";
        return section("HEADER", head) + section("BLOCKS", blocks_) + section("ENTITIES", entities_) + "0\nEOF\n";
    }
    Profile profile(double unit_mm = 0, double tolerance_mm = 0.02, double chord_mm = 0.005) const {
        std::istringstream in(text());
        return readDxf(in, "test.dxf", unit_mm, tolerance_mm, chord_mm);
    }

private:
    static std::string section(const std::string& name, const std::string& content) {
        return "0\nSECTION\n2\n" + name + "\n" + content + "0\nENDSEC\n";
    }

    int insertUnits_;
    bool inBlocks_ = false;
    std::string blocks_, entities_;
};

}  // namespace waybench::test
