"""12 V wiring: conductors, fuses, supply trees, speaker and signal runs. Pure, SI in, SI out.

Symbols used throughout, as the standards write them:

====== ============================================== ==========
symbol meaning                                        unit
====== ============================================== ==========
A, S   cross-section of the metal of a conductor      m²
E      electromotive force of a source                V
I      current, positive from `start` to `end`        A
I_z    ampacity: current a conductor may carry        A
I_n    rated current of a fuse                        A
I_cn   breaking capacity of a fuse                    A
I_k    prospective short-circuit current              A
k      adiabatic constant, I²t = k²S²                 A·√s/m²
L      length of a run one way                        m
P      power drawn from the supply                    W
r      resistance per length                          Ω/m
R      resistance                                     Ω
T, T_a temperature of conductor, of the air around it °C
V, U   voltage between plus and local minus           V
α      temperature coefficient of resistance, 20 °C   1/K
η      efficiency of an amplifier                     -
ρ      resistivity at 20 °C                           Ω·m
====== ============================================== ==========

Temperatures are in degrees Celsius because every table of the trade is. Unknown is None, and
None is a finding; it is never taken as zero.
"""
