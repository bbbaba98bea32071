#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "core/geometry/import/dxf_entities.h"

namespace waybench::dxf {

namespace {

constexpr std::size_t kMostPlacedCurves = 500000;
constexpr std::size_t kMostVisits = 2000000;
constexpr std::size_t kMostInsertions = 100000;
constexpr int kDeepestNesting = 16;

InputFault truncated(std::size_t line) {
    return {"file_truncated", "", placeOf(line), "the drawing ends in the middle", "export or copy the file again"};
}

InputFault notDxf(std::size_t line) {
    return {"file_not_dxf", "", placeOf(line), "this is not a DXF drawing", "export the drawing as ASCII (text) DXF"};
}

class DrawingReader {
public:
    explicit DrawingReader(Groups& groups) : groups_(groups) {}

    Drawing run() {
        Group group;
        bool sawSection = false, sawEntities = false;
        while (nextGroup(group)) {
            if (group.code == 999) continue;
            if (!sawSection && (group.code != 0 || group.value != "SECTION")) throw notDxf(group.line);
            if (group.code != 0) continue;
            if (group.value == "EOF") break;
            if (group.value != "SECTION") continue;
            sawSection = true;
            if (!nextGroup(group)) throw truncated(groups_.line());
            if (group.code != 2) throw notDxf(group.line);
            if (group.value == "HEADER") {
                readHeader();
            } else if (group.value == "BLOCKS") {
                readBlocks();
            } else if (group.value == "ENTITIES") {
                sawEntities = true;
                readEntities(drawing_.entities, "ENDSEC");
            }
        }
        if (!sawSection) throw notDxf(1);
        if (!sawEntities)
            throw InputFault("drawing_empty", "", "", "the drawing has no section of entities",
                             "export the profile again");
        return std::move(drawing_);
    }

private:
    bool nextGroup(Group& group) {
        try {
            return groups_.next(group);
        } catch (const InputFault&) {
            if (groups_.line() <= 1) throw notDxf(1);
            throw;
        }
    }

    Group expected() {
        Group group;
        if (!nextGroup(group)) throw truncated(groups_.line());
        return group;
    }

    void readHeader() {
        std::string variable;
        for (;;) {
            const Group g = expected();
            if (g.code == 0 && g.value == "ENDSEC") return;
            if (g.code == 9) {
                variable = std::string(g.value);
            } else if (!variable.empty()) {
                drawing_.header.emplace(variable, g);
                variable.clear();
            }
        }
    }

    void readBlocks() {
        for (;;) {
            const Group g = expected();
            if (g.code != 0) continue;
            if (g.value == "ENDSEC") return;
            if (g.value != "BLOCK") continue;
            Entity head = entityAt(g);
            Block block;
            if (head.has(10)) block.base = head.point(10);
            readEntities(block.entities, "ENDBLK");
            drawing_.blocks.emplace(head.text(2), std::move(block));
        }
    }

    void readEntities(std::vector<Entity>& entities, std::string_view end) {
        for (;;) {
            const Group g = expected();
            if (g.code != 0) continue;
            if (g.value == end) return;
            if (g.value == "ENDSEC" || g.value == "EOF") throw truncated(g.line);
            Entity entity = entityAt(g);
            if (entity.type == "VERTEX") {
                if (!entities.empty() && entities.back().type == "POLYLINE")
                    entities.back().vertices.push_back(std::move(entity));
                continue;
            }
            if (entity.type == "SEQEND") continue;
            entities.push_back(std::move(entity));
        }
    }

    Entity entityAt(const Group& start) {
        Entity entity;
        entity.type = std::string(start.value.substr(0, 40));
        entity.line = start.line;
        Group g;
        while (nextGroup(g)) {
            if (g.code == 0) {
                groups_.putBack(g);
                return entity;
            }
            entity.groups.push_back(g);
        }
        throw truncated(groups_.line());
    }

    Groups& groups_;
    Drawing drawing_;
};

class Placement {
public:
    Placement(const Drawing& drawing) : drawing_(drawing) {}

    std::vector<Path> run(std::vector<std::string>& notes) {
        place(drawing_.entities, Affine{}, 0);
        std::string left;
        for (const auto& [type, count] : leftOut_)
            left += (left.empty() ? "" : ", ") + std::to_string(count) + " " + type;
        if (!left.empty()) notes.push_back("left out, as they are no contour: " + left);
        if (hidden_ > 0)
            notes.push_back("left out: " + std::to_string(hidden_) + " hidden entities or entities of a paper layout");
        if (layers_.size() > 1) {
            std::string names;
            for (const std::string& layer : layers_)
                names += (names.empty() ? "" : ", ") + layer;
            notes.push_back("contours were taken from " + std::to_string(layers_.size()) + " layers: " + names);
        }
        return std::move(paths_);
    }

private:
    void place(const std::vector<Entity>& entities, const Affine& by, int depth) {
        for (const Entity& e : entities) {
            if (++visits_ > kMostVisits) throw tooComplex();
            if (e.wholeNumber(67, 0) != 0 || e.wholeNumber(60, 0) != 0) {
                ++hidden_;
            } else if (e.type == "INSERT") {
                insert(e, by, depth);
            } else if (std::optional<Path> path = pathOf(e)) {
                layers_.insert(e.text(8));
                curves_ += path->curves.size();
                if (curves_ > kMostPlacedCurves) throw tooComplex();
                for (Curve& curve : path->curves)
                    curve = moved(curve, by);
                paths_.push_back(std::move(*path));
            } else {
                ++leftOut_[e.type];
            }
        }
    }

    void insert(const Entity& e, const Affine& by, int depth) {
        const std::string name = e.text(2);
        const auto found = drawing_.blocks.find(name);
        if (found == drawing_.blocks.end())
            throw InputFault("block_missing", "", e.place(), "the block '" + name + "' is not in the file",
                             "export the drawing with its blocks, or explode them first");
        if (depth >= kDeepestNesting)
            throw InputFault("block_recursive", "", e.place(), "the block '" + name + "' contains itself",
                             "explode the blocks and export again");
        const std::optional<Affine> plane = planeOf(e);
        if (!plane)
            throw InputFault("entity_not_flat", "", e.place(), "the INSERT is tilted out of the drawing plane",
                             "insert the block flat and export again");
        const Vec2 scale(e.number(41, 1), e.number(42, 1)), at = e.point(10);
        for (const double s : {scale.x(), scale.y()})
            if (!(std::abs(s) > 1e-9 && std::abs(s) < 1e9))
                throw InputFault("size_absurd", "", e.place(), "the scale of the INSERT is not usable",
                                 "correct the scale and export again");
        const Mat2 turn = Eigen::Rotation2Dd(e.number(50, 0) * std::numbers::pi / 180).toRotationMatrix();
        const int columns = std::max(1, e.wholeNumber(70, 1)), rows = std::max(1, e.wholeNumber(71, 1));
        for (int column = 0; column < columns; ++column)
            for (int row = 0; row < rows; ++row) {
                if (++insertions_ > kMostInsertions) throw tooComplex();
                const Vec2 step(column * e.number(44, 0), row * e.number(45, 0));
                Affine own;
                own.linear = turn * scale.asDiagonal();
                own.shift = at + turn * step - own.linear * found->second.base;
                place(found->second.entities, after(by, after(*plane, own)), depth + 1);
            }
    }

    static InputFault tooComplex() {
        return {"drawing_too_complex", "", "", "the drawing has more curves or inserted blocks than a profile can need",
                "export only the profile of the part"};
    }

    const Drawing& drawing_;
    std::vector<Path> paths_;
    std::map<std::string, int> leftOut_;
    std::set<std::string> layers_;
    std::size_t curves_ = 0, insertions_ = 0, visits_ = 0;
    int hidden_ = 0;
};

}  // namespace

Drawing readDrawing(Groups& groups) {
    return DrawingReader(groups).run();
}

std::vector<Path> placedPaths(const Drawing& drawing, std::vector<std::string>& notes) {
    return Placement(drawing).run(notes);
}

}  // namespace waybench::dxf
