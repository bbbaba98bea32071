#include "app/window/help_window.h"

#include <QCoreApplication>
#include <QDialog>
#include <QDialogButtonBox>
#include <QTextBrowser>
#include <QVBoxLayout>

#include "app/style/theme.h"

namespace waybench {

namespace {

const char* const kHelp = QT_TRANSLATE_NOOP("Help", R"(
<h2>The way to an answer</h2>
<p><b>Shape.</b> Add a part from a DXF profile with a thickness, a closed body (STL, STEP), or a family with dimensions. A dimension
may differ per route: press the double arrow beside it.</p>
<p>A file that does not say its unit is asked about once; the unit stays to be changed among the part's fields.</p>
<p><b>Load.</b> Click a face in either view and say whether it is held (fixed, sliding along the face, bolted through a
bore), loaded, measured, or has a mass attached; or choose faces by name at the right. Type the force, and the deflection
the measured face may have. The own weight counts once its direction is chosen. Further load cases are made with + and
copy; the part must hold in each, and the fields and views are about the one chosen.</p>
<p><b>Compare.</b> The verdict line is always current or says that it is not. The ledger has the printed figure left of
each question and the machined one right of it; select a row to read how it was worked out. <i>What if</i> draws any
question against any dimension or setting; <i>Layers</i> shows what the printer lays, layer by layer, where its time goes,
and which way up the part had better stand; <i>Page</i> is what you hand on.</p>
<h2>What the figures are, and are not</h2>
<ul>
<li>Deflection: one linear three-dimensional solver for both ways. Fixed and sliding supports are ideally stiff, bolted ones
give as a joint of that size is reckoned to; contact, bolts that slip,
and large deformation are left out.</li>
<li>The print is taken as contours, solid fill and infill with direction-dependent stiffness. Moduli scatter by 20 to 50 per cent
between spools and machines: measure a bending bar of your own before you rely on a narrow margin.</li>
<li>Strength across layers scatters even more and fails without warning.</li>
<li>Creep of printed plastics is poorly documented: figures for sustained loads are placeholders and say so.</li>
<li>Times rest on the speeds and accelerations in the workshop tables; expect 10 to 20 per cent on prints, 25 to 30 per
cent door to door on single milled parts.</li>
<li>Holding while milling is an estimate from two strap clamps or the tabs; test it on the machine.</li>
</ul>
<h2>Keys</h2>
<p>Ctrl+1, 2, 3, 4: bench, what if, layers, page. Ctrl+Z, Ctrl+Shift+Z: undo, redo. Ctrl+S, Ctrl+Shift+S: save, save as. Ctrl+E:
export the page. In the list of parts F2 renames, Ctrl+D duplicates, Delete deletes. In a field Up and Down nudge; Page
Up and Page Down by ten. In a view arrow keys turn, with Shift they move; plus and minus zoom, 0 or Home fits; N and P
pick the next and the previous face, Return or Space offers what to do with it. On the what-if page Left and Right move
the cursor. On the layers page Up and Down go one layer, Page Up and Page Down ten, Home and End to bed and top; plus and
minus zoom, 0 fits. In the ledger Up and Down select, Ctrl+C copies the table.</p>
<h2>Cautions</h2>
<p>Figures are for planning. The machines' manuals, material safety sheets, local rules and the judgement of a qualified
person come first. Not for lifting, pressure, guarding of machines, medical or food use, or any part whose failure can
injure. Proof-load the real part at 1.5 to 2 times its load before use. Wear eye protection at the mill, never leave
either machine unattended, ventilate the printer.</p>
<h2>About</h2>
<p>Waybench %1, GPL-3.0-or-later. Made with Qt %2 (LGPL-3.0), QCustomPlot 2.1 (GPL-3.0), Eigen 3.4 (MPL-2.0),
nlohmann/json (MIT), Clipper 6 (Boost). Tables and their sources: the folder resources.</p>
)");

}  // namespace

const char* cautionLine() {
    return QT_TRANSLATE_NOOP(
        "Help",
        "Planning figures. The machines' manuals, safety sheets, local rules and licensed practice "
        "come first; proof-load the real part.");
}

void showHelp(QWidget* parent) {
    auto* window = new QDialog(parent);
    window->setAttribute(Qt::WA_DeleteOnClose);
    window->setWindowTitle(QCoreApplication::translate("Help", "Help"));
    auto* browser = new QTextBrowser(window);
    browser->setHtml(QCoreApplication::translate("Help", kHelp)
                         .arg(QCoreApplication::applicationVersion(), QString::fromLatin1(qVersion())));
    auto* close = new QDialogButtonBox(QDialogButtonBox::Close, window);
    QObject::connect(close, &QDialogButtonBox::rejected, window, &QDialog::close);
    auto* column = new QVBoxLayout(window);
    column->addWidget(browser);
    column->addWidget(close);
    const int width = QFontMetrics(textFont(TextSize::body)).averageCharWidth() * 92;
    window->resize(width, width);
    window->show();
}

}  // namespace waybench
