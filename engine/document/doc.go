// Package document reads and writes the program's JSON documents strictly.
//
// Decode takes a text into Go structs and tells every problem at once, each
// with its path, line, what was read, what is wanted and the nearest valid
// word. Encode writes the same structs back: keys in struct order, one thing a
// line where that is sensible, the same bytes for the same value. Schema tells
// the same rules as JSON Schema 2020-12. Get and Set reach one value by its
// path. Quantities of package unit are held in SI and stand in the file in the
// unit that their key's suffix names ("set_kPa_g").
//
// Sources: RFC 8259 (JSON), RFC 3629 (UTF-8), JSON Schema 2020-12. It knows no
// document in particular, and does not check what the values mean together.
package document
