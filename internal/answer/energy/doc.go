// Package energy tells what the air costs to run: electricity of each compressor over a
// year, of leaks by their bore, of pressure that nobody needs, of tools without a
// regulator, of leaking while nobody works; and what each measure would save.
//
// It stands on package day, which tells how long the compressors run.
package energy
