"""Print the vector instructions beyond its baseline that NumPy uses here, as NPY_DISABLE_CPU_FEATURES names them.

With all of them turned off there, NumPy computes as on the plainest processor that it runs on, and prints none.
"""

import numpy as np

print(*np.show_config(mode="dicts")["SIMD Extensions"].get("found", []))
