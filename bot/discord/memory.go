package discord

import (
	"runtime"
	"runtime/metrics"
)

// memory is what the process holds: bytes of live objects, bytes that the runtime has from the system, goroutines.
func memory() any {
	samples := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}, {Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	metrics.Read(samples)
	return map[string]uint64{"heap_bytes": samples[0].Value.Uint64(), "held_bytes": samples[1].Value.Uint64() - samples[2].Value.Uint64(),
		"goroutines": uint64(runtime.NumGoroutine())}
}
