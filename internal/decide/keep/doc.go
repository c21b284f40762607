// Package keep is the upkeep of what is installed: what is due when, and what was done.
//
// [Of] takes a study and the day and gives an [Answer]: a [Task] for each thing that wants
// looking after, by calendar or by running hours, with when it was done last and is due
// next; the log with parts and cost by year; the trend of the leaks. [WriteICS] gives the
// calendar as iCalendar (RFC 5545).
//
// Sources: intervals are common practice, which the makers' instructions override; the
// life of a desiccant and the hours a day are the study's. It replaces no inspection that
// the law asks for, and words nothing for the page.
package keep
