#pragma once
#include <QObject>
#include <QStringList>
#include <QUndoStack>
#include <memory>

#include "app/document/edits.h"
#include "app/document/fault.h"
#include "core/bench/shop.h"
#include "core/project/project.h"

namespace waybench {

/// Endings, lower case, of the files a part's shape can come from.
const QStringList& shapeEndings();

/// The open project, which part is looked at, and every change as an undoable step.
///
/// In memory drawings and bodies have whole paths; they become relative only in the file, so that saving elsewhere
/// changes no part and every undo step stays good.
///
/// Nothing else changes the project. Faults of opening and saving are signalled, never thrown out of here.
class Document : public QObject {
    Q_OBJECT
public:
    explicit Document(std::shared_ptr<const Shop> shop, QObject* parent = nullptr);

    const Shop& shop() const { return *shop_; }
    std::shared_ptr<const Shop> sharedShop() const { return shop_; }
    const Project& project() const { return project_; }
    bool isOpen() const { return open_; }
    /// A shipped sample: saving asks for another place.
    bool isSample() const { return sample_; }
    QString name() const;
    /// Another program changed the project's file since it was read or saved here. A file that is gone is none.
    bool isChangedOnDisk() const;
    /// The fault with a drawing or body named as the project's file names it.
    Fault asWritten(Fault fault) const;

    int currentIndex() const { return current_; }
    const Part* currentPart() const;
    void setCurrentIndex(int index);

    QUndoStack& undoStack() { return undo_; }
    bool isModified() const { return open_ && !undo_.isClean(); }

    // Edits; each is one named undo step. Undoing or redoing one shows its part.
    /// @param text such as "thickness 6 mm → 7 mm"; the part's name is put before it
    /// @param mergeWord edits in a row with the same word become one step (nudges, drags), whose text goes from the
    ///        first value to the last; empty = own step
    void editCurrent(const Part& after, const QString& text, const QString& mergeWord = {});
    void addPart(Part part);
    void duplicatePart(int index);
    void removePart(int index);
    /// A taken name gets a number. @return false when nothing changed: no such part, a blank name, its own name
    bool renamePart(int index, const QString& name);
    TitleBlock titleBlock() const;
    void editTitleBlock(const TitleBlock& after, const QString& text);

    // Files. Return whether it worked; a fault was signalled otherwise.
    void startNew();
    bool open(const QString& file, bool asSample = false);
    bool save();
    /// Drawings and surfaces keep being found: the file has their paths as seen from its folder.
    bool saveAs(const QString& file);
    void close();
    /// Makes a part from a drawing or surface file, and adds it. A project is started when none is open.
    /// @param unit_mm millimetres per unit of the file; 0 = as the file says
    bool importShape(const QString& file, double unit_mm = 0);

    static QStringList recentFiles();
    static void forgetRecent(const QString& file);

Q_SIGNALS:
    void projectReset();         ///< another project, or none
    void partsChanged();         ///< added, removed, renamed, reordered
    void partEdited(int index);  ///< the part's description changed
    void currentChanged(int index);
    void titleBlockChanged();
    void modifiedChanged(bool modified);
    void fileChanged();
    void faulted(const waybench::Fault& fault);
    void noted(const QString& message);

private:
    friend class PartEdit;
    friend class PartsEdit;
    friend class TitleBlockEdit;
    void replacePart(int index, const Part& part);
    void replaceParts(const std::vector<Part>& parts, int current);
    void replaceTitleBlock(const TitleBlock& block);
    /// @param owner index of the part that may keep its name; -1 = none
    std::string freeName(const std::string& wish, int owner = -1) const;
    void reset(Project project, bool open, bool sample);

    std::shared_ptr<const Shop> shop_;
    Project project_;
    QUndoStack undo_;
    QByteArray digest_;  ///< of the file as it was read or written
    int current_ = -1;
    bool open_ = false, sample_ = false;
};

/// A part of a family with every dimension at its standard, nothing held or loaded yet.
Part partOfFamily(const Family& family);

}  // namespace waybench
