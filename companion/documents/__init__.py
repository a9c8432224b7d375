"""The documents people and programs hand us, each declared once: profile, equipment, scenario, and the requests of fit and diagnose."""
