package schema

// flagKinds lists every kind of flag in the order of the form.
var flagKinds = []string{
	AmountUnstated, AmountVague, YieldUnstated, TemperatureUnstated, TimeUnstated,
	ConflictAmount, ConflictTemperature, ConflictTime, ConflictConversion, ConflictMacros, ConflictClaim, ConflictYield, ConflictWay,
	HeardUnsure, FoodUnknown, MacrosDiffer,
}

// FlagKinds lists every kind of flag in the order of the form.
func FlagKinds() []string { return append([]string(nil), flagKinds...) }

// KnownFlagKind reports whether kind is one of the form's.
func KnownFlagKind(kind string) bool {
	for _, k := range flagKinds {
		if k == kind {
			return true
		}
	}
	return false
}

// Open gives the flags that nobody has settled, in the order of the document.
func (d *Document) Open() []Flag {
	var open []Flag
	for _, f := range d.Flags {
		if f.Settled == "" {
			open = append(open, f)
		}
	}
	return open
}
