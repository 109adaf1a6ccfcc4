package sheet

import "time"

// Plain is the format for readers of plain text: the words of a zone.
func Plain(zone *time.Location) Format {
	return Format{Zone: zone, Stamp: func(t time.Time, style Style) string {
		layout := map[Style]string{Clock: "15:04", DayClock: "Mon 15:04", Date: "Mon 2 Jan"}[style]
		return t.In(zone).Format(layout)
	}}
}
