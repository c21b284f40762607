// Package purchase puts together what a job has to buy: the take-off with the supports,
// the lengths that its lines are cut from, and the cheapest basket of offers.
//
// Main entry: [Of]. In: a job, its shelf, the take-off and the supports. Out: an
// [Answer]: needs with the things they come of and the stage of work; per stock and size
// the plan of cuts; the basket with deliveries, what is left over, the cheapest from one
// supplier alone, and what nobody sells. Kits that hold lines among other things are taken
// no, one or two times each, and every such choice is cut and bought to its optimum; which
// lengths to cut from is settled by their prices, and who sells them after.
// It knows no files and no screens. Sources: the job's own prices; customs in custom.go.
package purchase
