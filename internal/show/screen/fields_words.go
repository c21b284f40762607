package screen

import (
	"strings"

	"dropleg/engine/document"
	"dropleg/internal/shop/job"
)

// keyWords is what people call a key: of one struct ("Tool.at_kPa_g") or of all.
// It is never written to.
var keyWords = map[string]string{
	"title": "Title", "note": "Note", "name": "Name", "mark": "Letter on the drawing", "state": "Stands already?", "zone": "Climate zone",
	"climate": "Climate", "winter_C": "Coldest inside", "summer_C": "Hottest inside", "floor_m": "Floor at", "ceiling_m": "Ceiling at",
	"above": "Ceiling is", "void_m": "Room above the ceiling", "height_m": "Height", "thickness_m": "Thickness", "made_of": "Made of", "outside": "Outside wall",
	"from_m": "Begins at", "to_m": "Ends at", "at_m": "Place", "wall": "Wall", "along_m": "Along the wall", "width_m": "Width", "sill_m": "Sill at",
	"up_m": "Up the wall", "off_m": "Off the wall", "bottom_m": "Underside at", "top_m": "Top at", "kind": "Kind", "item": "Class or profile",
	"point": "Point", "port": "Port", "stock": "Stock", "size": "Size", "role": "Serves as", "length_m": "Length", "support": "Held by", "slope": "Fall", "roughness_mm": "Roughness of the wall",
	"condition": "Condition", "branch_size": "Size of the branch", "shut": "Stands shut", "set_kPa_g": "Set to", "rating_kPa_g": "Rated for",
	"rated_flow": "Rated flow", "rated_at_kPa_g": "Rated at", "clean_kPa": "Takes when clean", "loaded_kPa": "Takes when loaded", "found_kPa": "Takes as found",
	"C_m3_s_Pa": "Sonic conductance C", "b": "Critical ratio b", "K": "Loss coefficient K", "droop_kPa": "Droop at rated flow",
	"pressure_dew_point_C": "Pressure dew point", "desiccant_kg": "Filling of desiccant", "volume_L": "Volume", "free_air": "Delivers", "displacement": "Displacement", "at_kPa_g": "At",
	"cut_in_kPa_g": "Cuts in at", "cut_out_kPa_g": "Cuts out at", "control": "Control", "power_kW": "Motor", "stages": "Stages",
	"starts_1_h": "Starts, at most", "duty_most": "Duty, at most", "lead": "Starts as number", "from_kPa_g": "From", "to_kPa_g": "To", "time_s": "Time",
	"tools": "Tools used here", "reel": "On a reel", "plug": "Plug", "socket": "Coupler at the tool", "flow": "Takes while running", "nozzle_mm": "Nozzle",
	"constant": "Takes the same at any pressure", "least_kPa_g": "Needs at least", "most_kPa_g": "Bears at most", "share": "In use", "burst_s": "At a stretch", "hours": "By the clock", "begin_h": "Begins, after midnight",
	"water_class": "Water class", "oil_class": "Oil class", "particle_class": "Particle class", "not_with": "Never runs with", "with": "Always runs with",
	"count": "How many", "later": "Not here yet", "file": "File", "page": "Page", "faint": "Faintness", "altitude_m": "Altitude",
	"barometer_kPa_abs": "Barometer", "hot_C": "Hot day outside", "cold_C": "Cold night outside", "humidity": "Humidity on the hot day",
	"currency": "Currency", "units": "Units", "flow_reference": "Flows without a mark count at", "electricity_per_kWh": "Electricity, price of 1 kWh",
	"margin_kPa": "Margin over a tool’s least", "main_velocity_m_s": "Fastest in mains", "drop_velocity_m_s": "Fastest in drop legs",
	"hose_velocity_m_s": "Fastest in hoses", "main_loss_kPa": "Most lost in the main", "growth": "Growth planned for", "leak": "Leaks",
	"test_factor": "Test pressure over design pressure", "rare": "Too rare to plan for", "freeze_margin_K": "Dew point below the coldest line", "price_age_d": "Prices count as old after",
	"stick_kerf_m": "A cut takes of a stick", "coil_kerf_m": "A cut takes of a coil", "end_trim_m": "Trimmed off a length", "least_rest_m": "Kept when left over, from",
	"spare_fittings": "Spare fittings", "spare_clips": "Spare clips and fixings",
	"allowed_stocks": "Stocks allowed", "crew": "People", "hours_1_week": "Hours a week", "date": "Prices of", "supplier": "Supplier", "number": "Article number", "words": "Words",
	"price": "Price", "when": "When", "by": "By", "about": "About", "joint": "Joint", "found": "Found", "text": "Text", "photo": "Photo",
	"pressure_kPa_g": "Pressure read", "receiver_kPa_g": "Receiver meanwhile", "temperature_C": "Temperature", "reference": "Reference",

	"Rules.slope": "Fall of mains", "Compressor.at_kPa_g": "Delivers it at", "Tool.at_kPa_g": "Takes it at", "Tool.item": "Class of tool", "Tool.plug": "Its plug",
	"Hose.item": "Hose", "Hose.plug": "Plug at the wall end", "Run.condition": "Condition of the wall", "Part.condition": "Counts as", "Part.kind": "Kind of part",
	"Point.name": "Name", "Underlay.at_m": "Mark at", "Outlet.point": "At point", "Record.kind": "What it is", "Record.task": "Task", "Record.used": "Parts used", "Record.cost": "Cost", "Record.takes_back": "Takes back", "Record.after": "Written knowing", "Record.device": "Written on", "Offer.words": "What it is", "Offer.id": "Offer",
	"Labour.rate_1_h": "An hour of work costs", "Labour.margin": "Margin on material", "Labour.tax": "Tax on the sum",
	"Compressor.displacement": "Sweeps (displacement)", "Prices.date": "Prices as of",
}

// wordsOf names a value for people; ends and axes are told apart.
func wordsOf(l document.Leaf) string {
	text, ok := keyWords[l.Of+"."+l.Key]
	if !ok {
		text = or(keyWords[l.Key], l.Key)
	}
	if _, axis, ok := strings.Cut(l.Path[strings.LastIndexByte(l.Path, '.')+1:], "["); ok {
		for i, name := range []string{"east", "north", "up"} {
			if strings.HasPrefix(axis, string(rune('0'+i))) {
				text += ", " + name
			}
		}
	}
	switch {
	case strings.HasPrefix(l.Path, "from.") && l.Of == "End":
		return "From: " + lower(text)
	case strings.HasPrefix(l.Path, "to.") && l.Of == "End":
		return "To: " + lower(text)
	}
	return text
}

// docWords are sentences in place of those of the file's schema, where these speak
// of the file; "" of what needs none. It is never written to.
var docWords = map[string]string{
	"Point.at_m": "", "Part.kind": "", "Part.item": "It fills in what is not stated.", "Part.size": "", "Part.condition": "", "Part.volume_L": "",
	"Part.C_m3_s_Pa": "The maker’s figure; it goes before the catalogue’s.", "Part.rated_flow": "", "Part.set_kPa_g": "", "Part.shut": "",
	"Compressor.free_air": "What it delivers, not what it sweeps.", "Compressor.displacement": "Swept, not delivered.",
	"Compressor.lead": "Among several; 1 starts first.", "Run.role": "", "Run.slope": "In the direction of the line; negative rises.", "Run.zone": "", "Run.roughness_mm": "As readings found it; empty: the stock’s.", "Part.found_kPa": "At rated flow, as readings found it. To be emptied when the element is changed.",
	"Outlet.mark": "", "Outlet.tools": "One at a time.", "Hose.item": "", "Hose.plug": "Empty: fixed, no coupler.", "Hose.socket": "Empty: screwed to the tool.",
	"Tool.item": "It fills in what is not stated.", "Tool.share": "Of the working time: 25 %, or 15 min an hour.", "Tool.burst_s": "As long as it usually runs without a pause.", "Tool.hours": "9:00-9:20, 14:00-15:00; empty: it comes and goes by chance.", "Work.begin_h": "", "Tool.flow": "", "Tool.count": "", "Tool.with": "", "Tool.later": "Counted for growth only.",
	"Site.humidity": "", "Site.hot_C": "", "Site.cold_C": "", "Site.currency": "Three letters, such as USD.", "Site.flow_reference": "",
	"Site.barometer_kPa_abs": "It goes before the altitude.", "Prices.currency": "", "Prices.date": "Year, month, day: 2026-03-14.",
	"Labour.rate_1_h": "", "Labour.margin": "", "Labour.tax": "",
	"Work.crew": "Who can hold a tool at one time.", "Rules.margin_kPa": "", "Rules.main_loss_kPa": "From the receiver to the last take-off.",
	"Rules.stick_kerf_m": "The width of the saw’s blade.", "Rules.coil_kerf_m": "", "Rules.end_trim_m": "Before the first piece.",
	"Rules.least_rest_m": "Shorter ones are scrap.", "Rules.spare_fittings": "On top of the drawing, whole ones.", "Rules.spare_clips": "On top of the list, whole ones.",
	"Rules.leak": "Share of what the compressors deliver.", "Rules.rare": "Sets rarer than this share of the time.",
	"Room.ceiling_m": "", "Room.void_m": "", "Opening.along_m": "From the wall’s start to the near side.", "Underlay.faint": "", "Run.path_m": "",
}

// docOf says what a value means, where its name does not.
func docOf(l document.Leaf) string {
	if own, ok := docWords[l.Of+"."+l.Key]; ok {
		return own
	}
	return l.Doc
}

// wordWords is what people call the words of enum tags; those that are not here
// stand as they are. It is never written to.
var wordWords = map[string]string{
	"state/existing": "stands already", "state/planned": "planned", "state/stub": "for later",
	"units/us": "US", "units/metric": "metric", "units/mixed": "metric with psi",
	"above/open": "none, open to the roof", "above/boarded": "boarded", "above/tiled": "tiled",
	"control/start-stop": "starts and stops", "control/load-unload": "runs on, unloads", "control/speed": "follows by speed",
	"reference/iso1217": "dry, 100 kPa, 20 °C (ISO 1217)", "reference/iso8778": "65 % humid, 100 kPa, 20 °C (ISO 8778, ANR)",
	"reference/normal": "dry, 101.325 kPa, 0 °C (normal)", "reference/scfm60": "dry, 14.696 psia, 60 °F", "reference/scfm68d": "dry, 14.5 psia, 68 °F",
	"reference/scfm68h": "36 % humid, 14.7 psia, 68 °F", "reference/scfm70": "dry, 14.7 psia, 70 °F", "reference/site": "air as it is at the intake",
	"support/clipped": "clips", "support/hung": "hangers", "support/void": "lies in the ceiling void", "support/buried": "buried",
	"role/ring": "ring main", "role/branch": "branch", "role/drop": "drop leg", "role/drip": "drip leg", "role/stub": "for later", "role/link": "link to plant",
	"kind/door-sweep": "sweep of a door", "kind/keep-out": "keep out",
}

// choiceWords is a word of an enum tag for people.
func choiceWords(key, word string) string {
	if key == "flow_reference" {
		key = "reference"
	}
	return or(wordWords[key+"/"+word], strings.ReplaceAll(word, "-", " "))
}

// thingWords is what a kind of thing is called.
func thingWords(id job.ID) string {
	if id.Word() == "line" {
		return "run"
	}
	return id.Word()
}
