/**
 * What changed in meaning between two versions of rulebooks and layouts: models of both in, a list
 * of events out. Depends on {@code facts} and what lies below, and on {@code report} for findings;
 * {@code page} shows events with pictures, and the command line fetches both versions.
 *
 * <p><b>A class by consequence.</b> Whoever reviews a change asks first what it does to a crew,
 * then what it does to a workbench. So every event says one of four: a crew may do more, a crew
 * sees something else, something must be re-soldered or re-sent, text only. A rename is text only,
 * since what moves by it (a number, an address, an LED) is an event of its own.
 *
 * <p><b>One to one.</b> An aspect is compared with the one that its {@code was} line names, else
 * with that of its name, else with the one that is like it in most respects, where only one is; and
 * the event says which. Forms, plates, colours, rhythms, speeds and makes of head that have another
 * name and nothing else are renamed where only one fits; looks and permissions are then compared in
 * the new names.
 *
 * <p><b>Told once.</b> Signals to which the same happened share one event. What a change of the
 * book does to the signals of a layout is told again with the layout, as other people work there.
 *
 * <p><b>Nothing unread is unchanged.</b> Where a version has errors of syntax, names or structure,
 * nothing is compared, and that is an event of the worst class: a reviewer must not take silence
 * for consent.
 */
package dev.doublet.diff;
