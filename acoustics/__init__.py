"""Loudspeakers, boxes, cabins and filters. Pure: SI in, SI out, floats or numpy arrays.

Nomenclature, after R. H. Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20 (1972):

=======  ============  =======================================================  ==========
symbol   name          meaning                                                  unit
=======  ============  =======================================================  ==========
rho      density       density of air                                           [kg/m³]
c        speed         speed of sound                                           [m/s]
fs       fs            resonance of the driver in free air                      [Hz]
Qms      qms           Q of the driver at fs from mechanical losses             [-]
Qes      qes           Q of the driver at fs from the electrical side           [-]
Qts      qts           Q of the driver at fs from all losses                    [-]
Vas      vas           volume of air as compliant as the suspension             [m³]
Sd       sd            effective area of the diaphragm                          [m²]
Cms      cms           compliance of the suspension                             [m/N]
Mms      mms           moving mass with its air load                            [kg]
Rms      rms           mechanical resistance of the suspension                  [kg/s]
Bl       bl            force factor                                             [T·m]
Re       re            resistance of the voice coil at direct current           [Ω]
Le       le            inductance of the voice coil                             [H]
Xmax     xmax          excursion that stays linear, one way, peak               [m]
Xmech    xmech         excursion at which something strikes, one way, peak      [m]
eta0     efficiency    reference efficiency into a half space                   [-]
Vb       volume        net volume of a box                                      [m³]
alpha    alpha         compliance ratio Vas/Vb                                  [-]
fb       fb            resonance of a vented box                                [Hz]
h        h             tuning ratio fb/fs                                       [-]
fc       fc            resonance of the driver in a sealed box                  [Hz]
Qtc      qtc           Q at fc from all losses                                  [-]
QL       ql            Q of the box at its resonance from leakage               [-]
QA       qa            Q of the box at its resonance from absorption            [-]
QP       qp            Q of the box at its resonance from the port              [-]
f3       f3            frequency where the response is 3 dB below its passband  [Hz]
=======  ============  =======================================================  ==========
"""
