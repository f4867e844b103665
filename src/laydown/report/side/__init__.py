"""Pictures of a vehicle's side: coats, joins, fades, rulers."""
