package discord

import (
	"runtime"
	"runtime/metrics"
)

// memory is what the process holds: bytes of objects that were alive at the last collection, bytes of all objects,
// bytes that the runtime has from the system; and goroutines.
func memory() any {
	samples := []metrics.Sample{{Name: "/gc/heap/live:bytes"}, {Name: "/memory/classes/heap/objects:bytes"},
		{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	metrics.Read(samples)
	return map[string]uint64{"live": samples[0].Value.Uint64(), "heap": samples[1].Value.Uint64(),
		"held": samples[2].Value.Uint64() - samples[3].Value.Uint64(), "goroutines": uint64(runtime.NumGoroutine())}
}
