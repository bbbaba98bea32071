#include "app/document/document.h"

#include <QCryptographicHash>
#include <QDate>
#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QSettings>
#include <algorithm>

#include "core/material/printing_material.h"
#include "core/project/shape_paths.h"

namespace waybench {

namespace {
constexpr int kRecentCount = 8;
const QString kRecentKey = QStringLiteral("recent/files");

void remember(const QString& file) {
    QSettings settings;
    QStringList recent = settings.value(kRecentKey).toStringList();
    recent.removeAll(file);
    recent.prepend(file);
    while (recent.size() > kRecentCount)
        recent.removeLast();
    settings.setValue(kRecentKey, recent);
}

std::filesystem::path pathOf(const QString& file) {
    return std::filesystem::path(file.toStdString());
}

QByteArray digestOf(const QByteArray& content) {
    return QCryptographicHash::hash(content, QCryptographicHash::Sha256);
}

/// Empty when there is no file; of no content when it is there and cannot be read.
QByteArray digestOnDisk(const QString& name) {
    QFile file(name);
    if (!file.exists()) return {};
    return digestOf(file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray());
}
}  // namespace

Document::Document(std::shared_ptr<const Shop> shop, QObject* parent) : QObject(parent), shop_(std::move(shop)) {
    connect(&undo_, &QUndoStack::cleanChanged, this, [this](bool clean) { Q_EMIT modifiedChanged(open_ && !clean); });
}

QString Document::name() const {
    if (!open_) return {};
    if (!project_.file.empty()) return QString::fromStdString(project_.file.filename().string());
    return project_.title.empty() ? tr("Untitled") : QString::fromStdString(project_.title);
}

bool Document::isChangedOnDisk() const {
    if (project_.file.empty()) return false;
    const QByteArray now = digestOnDisk(QString::fromStdString(project_.file.string()));
    return !now.isEmpty() && now != digest_;
}

Fault Document::asWritten(Fault fault) const {
    const std::filesystem::path named = pathOf(fault.file);
    const auto isIts = [&](const Part& part) { return part.shape.file == named; };
    if (fault.file.isEmpty() || std::none_of(project_.parts.begin(), project_.parts.end(), isIts)) return fault;
    if (project_.wholePaths.count(named)) return fault;
    const std::filesystem::path written = project_.file.empty() ? named.filename() : pathFrom(named, project_.folder());
    fault.file = QString::fromStdString(written.string());
    return fault;
}

const Part* Document::currentPart() const {
    if (current_ < 0 || current_ >= int(project_.parts.size())) return nullptr;
    return &project_.parts[std::size_t(current_)];
}

void Document::setCurrentIndex(int index) {
    index = std::clamp(index, -1, int(project_.parts.size()) - 1);
    if (index == current_) return;
    current_ = index;
    Q_EMIT currentChanged(current_);
}

void Document::editCurrent(const Part& after, const QString& text, const QString& mergeWord) {
    const Part* before = currentPart();
    if (!before || *before == after) return;
    undo_.push(new PartEdit(*this, current_, after, text, mergeWord));
}

std::string Document::freeName(const std::string& wish, int owner) const {
    const auto taken = [&](const std::string& name) {
        for (int k = 0; k < int(project_.parts.size()); ++k)
            if (k != owner && project_.parts[std::size_t(k)].name == name) return true;
        return false;
    };
    if (!taken(wish)) return wish;
    for (int k = 2;; ++k)
        if (const std::string name = wish + " " + std::to_string(k); !taken(name)) return name;
}

void Document::addPart(Part part) {
    if (!open_) startNew();
    part.name = freeName(part.name);
    const QString text = tr("add %1").arg(QString::fromStdString(part.name));
    std::vector<Part> parts = project_.parts;
    parts.push_back(std::move(part));
    const int last = int(parts.size()) - 1;
    undo_.push(new PartsEdit(*this, std::move(parts), current_, last, text));
}

void Document::duplicatePart(int index) {
    if (index < 0 || index >= int(project_.parts.size())) return;
    std::vector<Part> parts = project_.parts;
    Part copy = parts[std::size_t(index)];
    copy.name = freeName(copy.name + " copy");
    const QString text = tr("duplicate %1").arg(QString::fromStdString(parts[std::size_t(index)].name));
    parts.insert(parts.begin() + index + 1, std::move(copy));
    undo_.push(new PartsEdit(*this, std::move(parts), index, index + 1, text));
}

void Document::removePart(int index) {
    if (index < 0 || index >= int(project_.parts.size())) return;
    std::vector<Part> parts = project_.parts;
    const QString text = tr("delete %1").arg(QString::fromStdString(parts[std::size_t(index)].name));
    parts.erase(parts.begin() + index);
    const int after = std::min(index, int(parts.size()) - 1);
    undo_.push(new PartsEdit(*this, std::move(parts), index, after, text));
}

bool Document::renamePart(int index, const QString& name) {
    const std::string wish = name.trimmed().toStdString();
    if (index < 0 || index >= int(project_.parts.size()) || wish.empty()) return false;
    const std::string given = freeName(wish, index);
    if (project_.parts[std::size_t(index)].name == given) return false;
    std::vector<Part> parts = project_.parts;
    const QString text =
        tr("rename %1 to %2")
            .arg(QString::fromStdString(parts[std::size_t(index)].name), QString::fromStdString(given));
    parts[std::size_t(index)].name = given;
    undo_.push(new PartsEdit(*this, std::move(parts), index, index, text));
    return true;
}

TitleBlock Document::titleBlock() const {
    return {project_.title, project_.author, project_.identification, project_.note, project_.date, project_.tariff};
}

void Document::editTitleBlock(const TitleBlock& after, const QString& text) {
    if (after == titleBlock()) return;
    undo_.push(new TitleBlockEdit(*this, after, text));
}

void Document::replacePart(int index, const Part& part) {
    project_.parts.at(std::size_t(index)) = part;
    Q_EMIT partEdited(index);
    setCurrentIndex(index);
}

void Document::replaceParts(const std::vector<Part>& parts, int current) {
    project_.parts = parts;
    current_ = std::clamp(current, -1, int(parts.size()) - 1);
    if (current_ < 0 && !parts.empty()) current_ = 0;
    Q_EMIT partsChanged();
    Q_EMIT currentChanged(current_);
}

void Document::replaceTitleBlock(const TitleBlock& block) {
    project_.title = block.title;
    project_.author = block.author;
    project_.identification = block.identification;
    project_.note = block.note;
    project_.date = block.date;
    project_.tariff = block.tariff;
    Q_EMIT titleBlockChanged();
}

void Document::reset(Project project, bool open, bool sample) {
    undo_.clear();
    project_ = std::move(project);
    open_ = open;
    sample_ = sample;
    current_ = project_.parts.empty() ? -1 : 0;
    Q_EMIT projectReset();
    Q_EMIT fileChanged();
    Q_EMIT currentChanged(current_);
    Q_EMIT modifiedChanged(false);
}

void Document::startNew() {
    Project project;
    project.title = tr("New rig").toStdString();
    project.date = QDate::currentDate().toString(Qt::ISODate).toStdString();
    if (!shop_->tariffs.empty()) project.tariff = shop_->tariffs.front().key;
    reset(std::move(project), true, false);
}

bool Document::open(const QString& file, bool asSample) {
    try {
        ReadReport report;
        const QString absolute = QFileInfo(file).absoluteFilePath();
        // Before the reading: a change that comes between is then asked about, never overlooked.
        const QByteArray digest = digestOnDisk(absolute);
        Project project = readProject(pathOf(absolute), &report);
        project.file = pathOf(absolute);
        makePathsWhole(project);
        digest_ = digest;
        reset(std::move(project), true, asSample);
        if (!asSample) remember(absolute);
        if (!report.notes.empty())
            Q_EMIT noted(QString::fromStdString(report.notes.front()) +
                         (report.notes.size() > 1 ? tr(" (and %1 more)").arg(report.notes.size() - 1) : QString()));
        return true;
    } catch (const InputFault& fault) {
        Q_EMIT faulted(Fault::from(fault));
    } catch (const std::exception& error) {
        Q_EMIT faulted({QStringLiteral("internal"), file, {}, QString::fromUtf8(error.what()), {}});
    }
    return false;
}

bool Document::save() {
    if (project_.file.empty() || sample_) return false;
    return saveAs(QString::fromStdString(project_.file.string()));
}

bool Document::saveAs(const QString& file) {
    try {
        const std::filesystem::path target = pathOf(QFileInfo(file).absoluteFilePath());
        Project saved = project_;
        saved.file = target;
        saveProject(saved, target);
        digest_ = digestOf(QByteArray::fromStdString(projectJson(saved)));
        project_.file = target;
        sample_ = false;
        undo_.setClean();
        remember(QString::fromStdString(target.string()));
        Q_EMIT fileChanged();
        Q_EMIT modifiedChanged(false);
        Q_EMIT noted(tr("Saved %1").arg(name()));
        return true;
    } catch (const InputFault& fault) {
        Q_EMIT faulted(Fault::from(fault));
    } catch (const std::exception& error) {
        Q_EMIT faulted({QStringLiteral("cannot_write"), file, {}, QString::fromUtf8(error.what()), {}});
    }
    return false;
}

void Document::close() {
    reset(Project(), false, false);
}

const QStringList& shapeEndings() {
    static const QStringList endings{QStringLiteral("dxf"), QStringLiteral("stl"), QStringLiteral("step"),
                                     QStringLiteral("stp")};
    return endings;
}

bool Document::importShape(const QString& file, double unit_mm) {
    const QFileInfo entry(file);
    const QString ending = entry.suffix().toLower();
    Part part;
    part.name = entry.completeBaseName().toStdString();
    part.shape.kind = ending == QLatin1String("dxf") ? ShapeKind::drawing : ShapeKind::surface;
    if (!shapeEndings().contains(ending)) {
        Q_EMIT faulted({QStringLiteral("file_kind_unknown"),
                        entry.fileName(),
                        {},
                        tr("this kind of file cannot be taken"),
                        tr("bring a .dxf drawing, an .stl or .step body or a .waybench project")});
        return false;
    }
    part.shape.file = pathOf(entry.absoluteFilePath());
    part.shape.fileUnit_mm = unit_mm;
    if (part.shape.kind == ShapeKind::drawing) {
        for (const Dimension& d : dimensionsOf(part.shape))
            part.shape.dimensions[d.key] = d.standard;
    }
    addPart(std::move(part));
    return true;
}

QStringList Document::recentFiles() {
    return QSettings().value(kRecentKey).toStringList();
}

void Document::forgetRecent(const QString& file) {
    QSettings settings;
    QStringList recent = settings.value(kRecentKey).toStringList();
    if (file.isEmpty())
        recent.clear();
    else
        recent.removeAll(file);
    settings.setValue(kRecentKey, recent);
}

Part partOfFamily(const Family& family) {
    Part part;
    part.name = family.key();
    part.shape.kind = ShapeKind::family;
    part.shape.family = family.key();
    for (const Dimension& d : family.dimensions())
        part.shape.dimensions[d.key] = d.standard;
    return part;
}

}  // namespace waybench
