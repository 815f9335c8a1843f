window.guideSearch={"docs": [
{"location": "index.html", "title": "E-04 Quillon Mule E", "text": ""},
{"location": "hydraulic-brakes.html", "title": "Hydraulic brakes", "text": ""},
{"location": "hydraulic-brakes.html#pedal-check", "title": "Check the brake pedal", "text": "wheels chocked. in the driver's seat. WARNING A pedal that sinks shows a leak. The brakes could fail and people could die. Do not drive a truck whose pedal sinks. Hold the pedal down. The fluid is DOT 5 (silicone). The pedal does not sink. Do not drive."},
{"location": "warning-lamps.html", "title": "Warning lamps", "text": ""},
{"location": "warning-lamps.html#lamp-stop-engine", "title": "Stop engine", "text": "red lamp. Stop now. Stop at the nearest safe place. A fault will soon ruin the engine."},
{"location": "warning-lamps.html#lamp-oil-pressure", "title": "Engine oil pressure", "text": "red lamp. Stop now. Stop at the nearest safe place. Shut the engine off at once. The oil pressure is too low."},
{"location": "warning-lamps.html#lamp-abs", "title": "Anti-lock brakes", "text": "amber lamp. Report it. Report it to the shop. The anti-lock brakes are off."},
{"location": "when-something-is-wrong.html", "title": "When something is wrong", "text": ""},
{"location": "when-something-is-wrong.html#high-voltage-shut-off", "title": "Shut off the high voltage", "text": "key out. on the left side. DANGER The orange cables carry 650\u00a0V. Touching a bare part will kill you. Never touch orange cables. Work the pull handle behind the left step. Wait 5\u00a0min before anyone comes near. No lamp is on. Keep away, and call 911."}
]};
