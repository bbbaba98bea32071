#include "app/cli/command_line.h"

#include <QFile>
#include <QSaveFile>
#include <cmath>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <iostream>

#include "app/cli/command_options.h"
#include "app/page/page_pdf.h"
#include "app/page/pdf_file.h"
#include "app/page/sheet_pdf.h"
#include "core/comparison/part_solid.h"
#include "core/comparison/selection_check.h"
#include "core/comparison/solved_limit.h"
#include "core/comparison/sweep.h"
#include "core/comparison/ways_up.h"
#include "core/fault/input_fault.h"
#include "core/project/atomic_save.h"
#include "core/project/project.h"
#include "core/quantity/quantity_text.h"
#include "core/report/page_content.h"
#include "core/report/sheet.h"

#ifndef WAYBENCH_VERSION
#define WAYBENCH_VERSION "0"
#endif

namespace waybench {

namespace {

const char* const kHelp = R"(Waybench: print it or machine it? Compares both ways to make a fixture part.

  waybench rig.waybench                                          open the window
  waybench compare rig.waybench --part "encoder arm" --json -    figures, ledger and verdict as JSON
  waybench sweep rig.waybench --part "encoder arm" --vary thickness --from 4 --to 16 --points 13 --csv -
  waybench report rig.waybench --part "encoder arm" --pdf arm.pdf
  waybench ways-up rig.waybench --part "encoder arm"
  waybench sheets rig.waybench --part "encoder arm" --folder sheets
  waybench check rig.waybench

Commands
  compare PROJECT --part NAME   both routes of one part; without --json a short text
      --json FILE               write the comparison document; - is standard output
      --set WHAT=NUMBER         change a dimension or setting first, as 'sweep --vary' names it; may be repeated
      --draft                   coarse and quick
  sweep PROJECT --part NAME --vary WHAT --from A --to B --points N
      --csv FILE                table of all figures; - is standard output
      --json FILE               points, crossings and the solved-for value of each route
      --draft                   coarse and quick
  report PROJECT --part NAME --pdf FILE    the one page
      --paper a4|letter         default a4
      --set WHAT=NUMBER         as above
  ways-up PROJECT --part NAME   the six ways up of the print, best first, with the reason for each
      --json FILE               the same as JSON; - is standard output
      --set WHAT=NUMBER         as above
  sheets PROJECT --part NAME    a sheet for the mill and one for the printer, PART_setup_sheet.pdf, PART_print_sheet.pdf
      --folder FOLDER           where to; default here
      --paper a4|letter, --set WHAT=NUMBER   as above
  check PROJECT                 read everything, build every shape, bind every load
  parts PROJECT                 names of the parts, one a line
  variables PROJECT --part NAME what can be varied: name, range, unit

  --help, --version

Exit status: 0 good, 1 the input is at fault, 2 the call is wrong, 3 an error of Waybench itself.
Figures are estimates for planning. The machines' manuals, material safety sheets and local rules take precedence.
)";

/// Standard output for "-", else an atomically written file.
void writeText(const std::string& target, const std::string& text) {
    if (target == "-") {
        std::fwrite(text.data(), 1, text.size(), stdout);
        if (std::fflush(stdout) != 0)
            throw InputFault("cannot_write", "standard output", "", "cannot be written", "check what it is piped into");
        return;
    }
    requireOrdinaryTarget(target);
    QSaveFile out(QString::fromStdString(target));
    if (!out.open(QIODevice::WriteOnly) || out.write(text.data(), qint64(text.size())) != qint64(text.size()) ||
        !out.commit())
        throw InputFault("cannot_write", target, "", "cannot be written: " + out.errorString().toStdString(),
                         "choose a folder you may write to");
}

struct Opened {
    Project project;
    Shop shop;
    Part part;
};

std::string onlyFile(const CommandOptions& options) {
    if (options.positional().size() != 1) throw UsageFault("name one project file");
    return options.positional().front();
}

Project openProject(const std::string& file) {
    ReadReport report;
    Project project = readProject(file, &report);
    for (const std::string& note : report.notes)
        std::cerr << file << ": note: " << note << '\n';
    return project;
}

/// The project, the workshop, and the asked part with every --set applied.
Opened open(const CommandOptions& options) {
    Opened opened{openProject(onlyFile(options)), readShop(resourceFolder()), {}};
    opened.part = opened.project.part(options.required("part", "\"encoder arm\""));
    for (const std::string& setting : options.all("set")) {
        const auto equals = setting.find('=');
        if (equals == std::string::npos) throw UsageFault("write --set WHAT=NUMBER, for example --set thickness=8");
        const Variable variable = variableNamed(variablesOf(opened.part, opened.shop), setting.substr(0, equals));
        const double value = parseQuantity(setting.substr(equals + 1), variable.unit);
        if (variable.isWhole && value != std::round(value))
            throw UsageFault(variable.name + " counts: write a whole number");
        opened.part = with(opened.part, variable, value);
    }
    return opened;
}

Fidelity fidelityOf(const CommandOptions& options) {
    return options.has("draft") ? Fidelity::draft : Fidelity::standard;
}

Comparison compareOpened(const Opened& o, Fidelity fidelity) {
    return compare(o.part, o.project.folder(), o.shop, o.project.tariff, fidelity, Task());
}

/// The command's work on an opened project; a fault that names no file of its own is the project file's.
template <typename Work>
int inProject(const Opened& o, Work work) {
    try {
        work();
        return kGood;
    } catch (const InputFault& fault) {
        throw fault.inFile(o.project.file.string());
    }
}

void printShort(const Comparison& c) {
    std::cout << c.part.name << ": " << c.verdict.sentence << '\n';
    for (const std::string& reason : c.verdict.reasons)
        std::cout << "  - " << reason << '\n';
    for (const LedgerRow& row : c.ledger)
        std::cout << "  " << row.title << ": printed " << describe(row.printed, row.limit) << ", machined "
                  << describe(row.machined, row.limit) << (row.aheadText.empty() ? "" : "; " + row.aheadText) << '\n';
    for (const RouteOutcome* outcome : {&c.printed, &c.machined})
        for (const RouteWarning& w : outcome->warnings)
            std::cout << "  " << nameOf(outcome->kind) << " (" << nameOf(w.severity) << "): " << w.text << '\n';
}

int compareCommand(const QStringList& arguments) {
    const CommandOptions options(arguments, {"part", "json", "set"}, {"draft"});
    const Opened opened = open(options);
    return inProject(opened, [&] {
        const Comparison comparison = compareOpened(opened, fidelityOf(options));
        if (const auto target = options.value("json"))
            writeText(*target, comparisonJson(comparison));
        else
            printShort(comparison);
    });
}

int sweepCommand(const QStringList& arguments) {
    const CommandOptions options(arguments, {"part", "vary", "from", "to", "points", "csv", "json", "set"}, {"draft"});
    const std::string what = options.required("vary", "thickness");
    const double from = options.number("from", "4"), to = options.number("to", "16");
    const double points = options.has("points") ? options.number("points", "13") : 13;
    if (!(from < to)) throw UsageFault("--from must be below --to");
    if (points < 2 || points > 1000 || points != double(int(points)))
        throw UsageFault("--points must be a whole number from 2 to 1000");
    if (!options.has("csv") && !options.has("json"))
        throw UsageFault("say where to: --csv FILE or --json FILE, - is standard output");
    const Opened opened = open(options);
    const Variable variable = variableNamed(variablesOf(opened.part, opened.shop), what);
    return inProject(opened, [&] {
        const Sweep result = sweep(opened.part, opened.project.folder(), opened.shop, opened.project.tariff, variable,
                                   from, to, int(points), fidelityOf(options), Task());
        for (const std::string& line : changedSelections(result))
            std::cerr << "waybench: note: " << line << '\n';
        if (const auto target = options.value("csv")) writeText(*target, sweepCsv(result));
        const auto target = options.value("json");
        if (!target) return;
        const auto solved = [&](RouteKind route) {
            return solveInOrBeside(opened.part, opened.project.folder(), opened.shop, opened.project.tariff, variable,
                                   route, from, to, fidelityOf(options), Task());
        };
        writeText(*target, sweepJson(result, solved(RouteKind::printed), solved(RouteKind::machined)));
    });
}

/// The page's what-if; none where there is nothing to vary.
std::optional<Sweep> pageSweep(const Opened& o, const Comparison& comparison) {
    const std::vector<Variable> variables = variablesOf(comparison.part, o.shop);
    if (variables.empty()) return std::nullopt;
    const Variable& v = pageVariable(variables, comparison.part);
    const PageSweepRange range = pageSweepRange(v);
    if (!range.isOpen()) return std::nullopt;
    return sweep(comparison.part, o.project.folder(), o.shop, o.project.tariff, v, range.from, range.to, range.points,
                 Fidelity::draft, Task());
}

int reportCommand(const QStringList& arguments) {
    const CommandOptions options(arguments, {"part", "pdf", "paper", "set"}, {});
    const std::string target = options.required("pdf", "part.pdf");
    const std::string paper = options.value("paper").value_or("a4");
    if (paper != "a4" && paper != "letter") throw UsageFault("--paper is a4 or letter");
    const Opened opened = open(options);
    return inProject(opened, [&] {
        const Comparison comparison = compareOpened(opened, Fidelity::standard);
        const auto whatIf = pageSweep(opened, comparison);
        const PageContent content = pageContent(opened.project, comparison, whatIf ? &*whatIf : nullptr, opened.shop);
        writePagePdf(QString::fromStdString(target), paper == "a4" ? Paper::a4 : Paper::letter, content, comparison);
        std::cerr << target << ": " << comparison.verdict.sentence << '\n';
    });
}

void printShort(const std::vector<printed::WayUp>& ways) {
    for (const printed::WayUp& way : ways)
        std::cout << printed::upText(way) << ": " << way.why << "\n    deflection "
                  << describe(way.deflection.figure, way.deflection.limit) << ", strength margin "
                  << describe(way.strength.figure, way.strength.limit) << ", support "
                  << plainNumber(std::round(way.support_mm3.value / 10) / 100) << " cm3, height "
                  << plainNumber(std::round(way.height_mm * 100) / 100) << " mm, machine time "
                  << describe(way.machineTime) << '\n';
}

int waysUpCommand(const QStringList& arguments) {
    const CommandOptions options(arguments, {"part", "json", "set"}, {});
    const Opened opened = open(options);
    return inProject(opened, [&] {
        const std::vector<printed::WayUp> ways =
            waysUp(opened.part, opened.project.folder(), opened.shop, opened.project.tariff, Task());
        if (const auto target = options.value("json"))
            writeText(*target, waysUpJson(opened.part, ways));
        else
            printShort(ways);
    });
}

/// Safe to stand in a file name: letters, digits, dash and underscore; everything else becomes an underscore.
std::string fileStem(const std::string& name) {
    std::string stem;
    for (const char c : name) {
        const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
        stem += plain ? c : '_';
    }
    return stem.empty() ? "part" : stem;
}

int sheetsCommand(const QStringList& arguments) {
    const CommandOptions options(arguments, {"part", "folder", "paper", "set"}, {});
    const std::filesystem::path folder = options.value("folder").value_or(".");
    const std::string paper = options.value("paper").value_or("a4");
    if (paper != "a4" && paper != "letter") throw UsageFault("--paper is a4 or letter");
    const Opened opened = open(options);
    return inProject(opened, [&] {
        const Comparison comparison = compareOpened(opened, Fidelity::standard);
        const Paper size = paper == "a4" ? Paper::a4 : Paper::letter;
        const std::string stem = fileStem(opened.part.name);
        const auto write = [&](const char* ending, const Sheet& sheet) {
            const std::filesystem::path file = folder / (stem + ending);
            writePdf(QString::fromStdString(file.string()), sheetPdf(size, sheet));
            std::cerr << file.string() << '\n';
        };
        write("_print_sheet.pdf", printSheet(opened.project, comparison, opened.shop, Task()));
        write("_setup_sheet.pdf", setupSheet(opened.project, comparison, opened.shop, Task()));
    });
}

int checkCommand(const QStringList& arguments) {
    const CommandOptions options(arguments, {}, {});
    const Project project = openProject(onlyFile(options));
    const Shop shop = readShop(resourceFolder());
    if (project.parts.empty())
        throw InputFault("no_parts", project.file.string(), "parts", "the project has no part", "add one part");
    shop.tariff(project.tariff);
    for (const Part& part : project.parts) {
        try {
            machined::checkKeys(part.plan, shop);
            for (const RouteKind route : {RouteKind::printed, RouteKind::machined})
                bindAll(part.loadCases(), solidOf(part, route, project.folder()));
            shop.printingMaterial(part.recipe.material);
            shop.printer(part.recipe.printer);
            shop.stockMaterial(part.plan.material);
            shop.mill(part.plan.mill);
        } catch (const InputFault& fault) {
            throw fault.within("part '" + part.name + "'").inFile(project.file.string());
        }
    }
    std::cout << project.file.string() << ": " << project.parts.size()
              << (project.parts.size() == 1 ? " part" : " parts") << ", all good\n";
    return kGood;
}

int partsCommand(const QStringList& arguments) {
    const CommandOptions options(arguments, {}, {});
    for (const Part& part : openProject(onlyFile(options)).parts)
        std::cout << part.name << '\n';
    return kGood;
}

int variablesCommand(const QStringList& arguments) {
    const CommandOptions options(arguments, {"part", "set"}, {});
    const Opened opened = open(options);
    for (const Variable& v : variablesOf(opened.part, opened.shop))
        std::cout << v.name << '\t' << plainNumber(v.minimum) << " to " << plainNumber(v.maximum) << '\t'
                  << symbolOf(v.unit) << "\tnow " << plainNumber(v.current) << '\n';
    return kGood;
}

using Command = int (*)(const QStringList&);

const std::map<std::string, Command>& commands() {
    static const std::map<std::string, Command> all = {{"compare", compareCommand}, {"sweep", sweepCommand},
                                                       {"report", reportCommand},   {"sheets", sheetsCommand},
                                                       {"check", checkCommand},     {"ways-up", waysUpCommand},
                                                       {"parts", partsCommand},     {"variables", variablesCommand}};
    return all;
}

int guarded(Command command, const QStringList& rest) {
    try {
        return command(rest);
    } catch (const UsageFault& fault) {
        std::cerr << "waybench: " << fault.what() << "; see waybench --help\n";
        return kUsage;
    } catch (const InputFault& fault) {
        std::cerr << "waybench: " << fault.what() << '\n';
        return kInputAtFault;
    } catch (const std::bad_alloc&) {
        std::cerr << "waybench: not enough memory for this part; use a coarser file or --draft\n";
        return kInputAtFault;
    } catch (const std::exception& defect) {
        std::cerr << "waybench: internal error: " << defect.what() << "; please report it with the project file\n";
        return kInternal;
    }
}

}  // namespace

bool isCommand(const QStringList& arguments) {
    if (arguments.isEmpty()) return false;
    const std::string first = arguments.front().toStdString();
    if (commands().count(first)) return true;
    if (first.size() > 1 && first[0] == '-') return true;
    // A word without an ending that is no file is a command misspelt; anything else is the window's to open.
    const std::filesystem::path file(first);
    std::error_code ignored;
    return !file.has_extension() && !file.has_parent_path() && !std::filesystem::exists(file, ignored);
}

bool needsPainting(const QStringList& arguments) {
    return !arguments.isEmpty() && (arguments.front() == "report" || arguments.front() == "sheets");
}

int runCommand(const QStringList& arguments) {
    const std::string first = arguments.front().toStdString();
    if (first == "--help" || first == "-h") {
        std::cout << kHelp;
        return kGood;
    }
    if (first == "--version") {
        std::cout << "waybench " WAYBENCH_VERSION "\n";
        return kGood;
    }
    const auto it = commands().find(first);
    if (it == commands().end()) {
        std::cerr << "waybench: there is no " << (first[0] == '-' ? "option" : "command or file") << " '" << first
                  << "'; see waybench --help\n";
        return kUsage;
    }
    const QStringList rest = arguments.mid(1);
    if (rest.contains(QStringLiteral("--help"))) {
        std::cout << kHelp;
        return kGood;
    }
    return guarded(it->second, rest);
}

}  // namespace waybench
