#pragma once
#include <QMetaType>
#include <QString>

#include "core/fault/input_fault.h"

namespace waybench {

/// An InputFault (or a failure of ours) as the window passes it about.
struct Fault {
    QString code, file, place, problem, remedy;

    static Fault from(const InputFault& fault) {
        return {QString::fromStdString(fault.code()), QString::fromStdString(fault.file()),
                QString::fromStdString(fault.place()), QString::fromStdString(fault.problem()),
                QString::fromStdString(fault.remedy())};
    }
    /// The place without part and route: "part 'guide', printed, hold 1" is about hold 1.
    QString placeInPart() const {
        for (const char* route : {"', printed", "', machined"})
            if (const qsizetype at = place.indexOf(QLatin1String(route)); at >= 0) {
                QString rest = place.mid(at + qsizetype(qstrlen(route)));
                return rest.startsWith(QLatin1String(", ")) ? rest.mid(2) : rest;
            }
        return place;
    }
    /// "bracket.dxf, line 12: contour open. Close the gap." Empty parts are left out.
    QString sentence() const {
        QString s = file;
        if (!place.isEmpty()) s += (s.isEmpty() ? QString() : QStringLiteral(", ")) + place;
        if (!s.isEmpty()) s += QStringLiteral(": ");
        s += problem;
        if (!remedy.isEmpty()) {
            if (!s.endsWith(QLatin1Char('.'))) s += QLatin1Char('.');
            QString r = remedy;
            r[0] = r[0].toUpper();
            s += QLatin1Char(' ') + r;
            if (!s.endsWith(QLatin1Char('.'))) s += QLatin1Char('.');
        }
        return s;
    }
};

}  // namespace waybench
Q_DECLARE_METATYPE(waybench::Fault)
