-- night book of wren, Cierzo Hill; night of 2026-01-05
-- every moment: local time with its offset
BEGIN;
CREATE TABLE shots (
  id INTEGER PRIMARY KEY,
  object TEXT,
  filter TEXT,
  asked_s INTEGER,
  shutter_opened TEXT,
  shutter_closed TEXT,
  outcome TEXT,
  reason TEXT,
  written_at TEXT,
  file TEXT
);
INSERT INTO shots VALUES (1, 'IC 405', 'SII', 240, '2026-01-05T20:25:44+01:00', '2026-01-05T20:29:45+01:00', 'complete', NULL, '2026-01-05T20:29:48+01:00', 'ic405/wren-sii-0040.fits');
INSERT INTO shots VALUES (2, 'IC 405', 'SII', 240, '2026-01-05T20:29:49+01:00', '2026-01-05T20:33:49+01:00', 'complete', NULL, '2026-01-05T20:33:51+01:00', 'ic405/wren-sii-0041.fits');
INSERT INTO shots VALUES (3, 'IC 405', 'SII', 240, '2026-01-05T20:33:52+01:00', '2026-01-05T20:37:53+01:00', 'complete', NULL, '2026-01-05T20:37:55+01:00', 'ic405/wren-sii-0042.fits');
INSERT INTO shots VALUES (4, 'IC 405', 'SII', 240, '2026-01-05T20:37:56+01:00', '2026-01-05T20:41:56+01:00', 'complete', NULL, '2026-01-05T20:41:58+01:00', 'ic405/wren-sii-0043.fits');
INSERT INTO shots VALUES (5, 'IC 405', 'SII', 240, '2026-01-05T20:42:00+01:00', '2026-01-05T20:46:00+01:00', 'complete', NULL, '2026-01-05T20:46:02+01:00', 'ic405/wren-sii-0044.fits');
INSERT INTO shots VALUES (6, 'IC 405', 'SII', 240, '2026-01-05T20:46:20+01:00', '2026-01-05T20:50:20+01:00', 'complete', NULL, '2026-01-05T20:50:24+01:00', 'ic405/wren-sii-0045.fits');
INSERT INTO shots VALUES (7, 'IC 405', 'SII', 240, '2026-01-05T20:50:26+01:00', '2026-01-05T20:54:26+01:00', 'complete', NULL, '2026-01-05T20:54:28+01:00', 'ic405/wren-sii-0046.fits');
INSERT INTO shots VALUES (8, 'IC 405', 'SII', 240, '2026-01-05T20:54:28+01:00', '2026-01-05T20:58:28+01:00', 'complete', NULL, '2026-01-05T20:58:31+01:00', 'ic405/wren-sii-0047.fits');
INSERT INTO shots VALUES (9, 'IC 405', 'SII', 240, '2026-01-05T20:58:32+01:00', '2026-01-05T21:02:32+01:00', 'complete', NULL, '2026-01-05T21:02:34+01:00', 'ic405/wren-sii-0048.fits');
INSERT INTO shots VALUES (10, 'IC 405', 'SII', 240, '2026-01-05T21:02:35+01:00', '2026-01-05T21:06:35+01:00', 'complete', NULL, '2026-01-05T21:06:37+01:00', 'ic405/wren-sii-0049.fits');
INSERT INTO shots VALUES (11, 'IC 405', 'OIII', 240, '2026-01-05T21:07:04+01:00', '2026-01-05T21:11:04+01:00', 'complete', NULL, '2026-01-05T21:11:06+01:00', 'ic405/wren-oiii-0050.fits');
INSERT INTO shots VALUES (12, 'IC 405', 'OIII', 240, '2026-01-05T21:11:07+01:00', '2026-01-05T21:15:08+01:00', 'complete', NULL, '2026-01-05T21:15:09+01:00', 'ic405/wren-oiii-0051.fits');
INSERT INTO shots VALUES (13, 'IC 405', 'OIII', 240, '2026-01-05T21:17:35+01:00', '2026-01-05T21:21:35+01:00', 'complete', NULL, '2026-01-05T21:21:37+01:00', 'ic405/wren-oiii-0052.fits');
INSERT INTO shots VALUES (14, 'IC 405', 'OIII', 240, '2026-01-05T21:21:39+01:00', '2026-01-05T21:25:39+01:00', 'complete', NULL, '2026-01-05T21:25:40+01:00', 'ic405/wren-oiii-0053.fits');
INSERT INTO shots VALUES (15, 'IC 405', 'OIII', 240, '2026-01-05T21:25:41+01:00', '2026-01-05T21:29:41+01:00', 'complete', NULL, '2026-01-05T21:29:43+01:00', 'ic405/wren-oiii-0054.fits');
INSERT INTO shots VALUES (16, 'IC 405', 'OIII', 240, '2026-01-05T21:29:45+01:00', '2026-01-05T21:33:45+01:00', 'complete', NULL, '2026-01-05T21:33:47+01:00', 'ic405/wren-oiii-0055.fits');
INSERT INTO shots VALUES (17, 'IC 405', 'OIII', 240, '2026-01-05T21:33:49+01:00', '2026-01-05T21:37:49+01:00', 'complete', NULL, '2026-01-05T21:37:52+01:00', 'ic405/wren-oiii-0056.fits');
INSERT INTO shots VALUES (18, 'IC 405', 'SII', 240, '2026-01-05T21:38:08+01:00', '2026-01-05T21:42:08+01:00', 'complete', NULL, '2026-01-05T21:42:10+01:00', 'ic405/wren-sii-0057.fits');
INSERT INTO shots VALUES (19, 'IC 405', 'SII', 240, '2026-01-05T21:42:11+01:00', '2026-01-05T21:46:11+01:00', 'complete', NULL, '2026-01-05T21:46:14+01:00', 'ic405/wren-sii-0058.fits');
INSERT INTO shots VALUES (20, 'IC 405', 'SII', 240, '2026-01-05T21:46:16+01:00', '2026-01-05T21:50:16+01:00', 'complete', NULL, '2026-01-05T21:50:19+01:00', 'ic405/wren-sii-0059.fits');
INSERT INTO shots VALUES (21, 'IC 405', 'SII', 240, '2026-01-05T21:50:20+01:00', '2026-01-05T21:54:20+01:00', 'complete', NULL, '2026-01-05T21:54:21+01:00', 'ic405/wren-sii-0060.fits');
INSERT INTO shots VALUES (22, 'IC 405', 'SII', 240, '2026-01-05T21:57:58+01:00', '2026-01-05T22:01:58+01:00', 'complete', NULL, '2026-01-05T22:02:00+01:00', 'ic405/wren-sii-0061.fits');
INSERT INTO shots VALUES (23, 'IC 405', 'SII', 240, '2026-01-05T22:02:00+01:00', '2026-01-05T22:06:01+01:00', 'complete', NULL, '2026-01-05T22:06:03+01:00', 'ic405/wren-sii-0062.fits');
INSERT INTO shots VALUES (24, 'IC 405', 'SII', 240, '2026-01-05T22:06:04+01:00', '2026-01-05T22:10:04+01:00', 'complete', NULL, '2026-01-05T22:10:06+01:00', 'ic405/wren-sii-0063.fits');
INSERT INTO shots VALUES (25, 'IC 405', 'SII', 240, '2026-01-05T22:10:07+01:00', '2026-01-05T22:14:07+01:00', 'complete', NULL, '2026-01-05T22:14:10+01:00', 'ic405/wren-sii-0064.fits');
INSERT INTO shots VALUES (26, 'IC 405', 'SII', 240, '2026-01-05T22:14:11+01:00', '2026-01-05T22:18:11+01:00', 'complete', NULL, '2026-01-05T22:18:14+01:00', 'ic405/wren-sii-0065.fits');
INSERT INTO shots VALUES (27, 'IC 405', 'OIII', 240, '2026-01-05T22:18:50+01:00', '2026-01-05T22:22:50+01:00', 'complete', NULL, '2026-01-05T22:22:53+01:00', 'ic405/wren-oiii-0066.fits');
INSERT INTO shots VALUES (28, 'IC 405', 'OIII', 240, '2026-01-05T22:22:54+01:00', '2026-01-05T22:26:54+01:00', 'complete', NULL, '2026-01-05T22:26:57+01:00', 'ic405/wren-oiii-0067.fits');
INSERT INTO shots VALUES (29, 'IC 405', 'OIII', 240, '2026-01-05T22:29:08+01:00', '2026-01-05T22:33:09+01:00', 'complete', NULL, '2026-01-05T22:33:12+01:00', 'ic405/wren-oiii-0068.fits');
INSERT INTO shots VALUES (30, 'IC 405', 'OIII', 240, '2026-01-05T22:33:13+01:00', '2026-01-05T22:37:13+01:00', 'complete', NULL, '2026-01-05T22:37:15+01:00', 'ic405/wren-oiii-0069.fits');
INSERT INTO shots VALUES (31, 'IC 405', 'OIII', 240, '2026-01-05T22:37:16+01:00', '2026-01-05T22:41:17+01:00', 'complete', NULL, '2026-01-05T22:41:19+01:00', 'ic405/wren-oiii-0070.fits');
INSERT INTO shots VALUES (32, 'IC 405', 'OIII', 240, '2026-01-05T22:41:20+01:00', '2026-01-05T22:45:20+01:00', 'complete', NULL, '2026-01-05T22:45:22+01:00', 'ic405/wren-oiii-0071.fits');
INSERT INTO shots VALUES (33, 'IC 405', 'SII', 240, '2026-01-05T22:46:04+01:00', '2026-01-05T22:50:04+01:00', 'complete', NULL, '2026-01-05T22:50:05+01:00', 'ic405/wren-sii-0072.fits');
INSERT INTO shots VALUES (34, 'IC 405', 'SII', 240, '2026-01-05T22:50:06+01:00', '2026-01-05T22:54:07+01:00', 'complete', NULL, '2026-01-05T22:54:08+01:00', 'ic405/wren-sii-0073.fits');
INSERT INTO shots VALUES (35, 'IC 405', 'SII', 240, '2026-01-05T22:54:10+01:00', '2026-01-05T22:58:10+01:00', 'complete', NULL, '2026-01-05T22:58:13+01:00', 'ic405/wren-sii-0074.fits');
INSERT INTO shots VALUES (36, 'IC 405', 'SII', 240, '2026-01-05T22:58:14+01:00', '2026-01-05T23:02:14+01:00', 'complete', NULL, '2026-01-05T23:02:17+01:00', 'ic405/wren-sii-0075.fits');
INSERT INTO shots VALUES (37, 'IC 405', 'SII', 240, '2026-01-05T23:02:31+01:00', '2026-01-05T23:06:31+01:00', 'complete', NULL, '2026-01-05T23:06:34+01:00', 'ic405/wren-sii-0076.fits');
INSERT INTO shots VALUES (38, 'IC 405', 'SII', 240, '2026-01-05T23:06:36+01:00', '2026-01-05T23:10:36+01:00', 'complete', NULL, '2026-01-05T23:10:38+01:00', 'ic405/wren-sii-0077.fits');
INSERT INTO shots VALUES (39, 'IC 405', 'SII', 240, '2026-01-05T23:10:39+01:00', '2026-01-05T23:14:39+01:00', 'complete', NULL, '2026-01-05T23:14:42+01:00', 'ic405/wren-sii-0078.fits');
INSERT INTO shots VALUES (40, 'IC 405', 'SII', 240, '2026-01-05T23:14:42+01:00', '2026-01-05T23:18:42+01:00', 'complete', NULL, '2026-01-05T23:18:46+01:00', 'ic405/wren-sii-0079.fits');
INSERT INTO shots VALUES (41, 'IC 405', 'SII', 240, '2026-01-05T23:18:47+01:00', '2026-01-05T23:22:47+01:00', 'complete', NULL, '2026-01-05T23:22:51+01:00', 'ic405/wren-sii-0080.fits');
INSERT INTO shots VALUES (42, 'IC 405', 'OIII', 240, '2026-01-05T23:25:30+01:00', '2026-01-05T23:29:30+01:00', 'complete', NULL, '2026-01-05T23:29:32+01:00', 'ic405/wren-oiii-0081.fits');
INSERT INTO shots VALUES (43, 'IC 405', 'OIII', 240, '2026-01-05T23:29:34+01:00', '2026-01-05T23:33:34+01:00', 'complete', NULL, '2026-01-05T23:33:38+01:00', 'ic405/wren-oiii-0082.fits');
INSERT INTO shots VALUES (44, 'IC 405', 'OIII', 240, '2026-01-05T23:33:39+01:00', '2026-01-05T23:37:39+01:00', 'complete', NULL, '2026-01-05T23:37:42+01:00', 'ic405/wren-oiii-0083.fits');
INSERT INTO shots VALUES (45, 'IC 405', 'OIII', 240, '2026-01-05T23:37:44+01:00', '2026-01-05T23:41:44+01:00', 'complete', NULL, '2026-01-05T23:41:46+01:00', 'ic405/wren-oiii-0084.fits');
INSERT INTO shots VALUES (46, 'IC 405', 'OIII', 240, '2026-01-05T23:42:01+01:00', '2026-01-05T23:46:01+01:00', 'complete', NULL, '2026-01-05T23:46:04+01:00', 'ic405/wren-oiii-0085.fits');
INSERT INTO shots VALUES (47, 'IC 405', 'OIII', 240, '2026-01-05T23:46:04+01:00', '2026-01-05T23:50:05+01:00', 'complete', NULL, '2026-01-05T23:50:08+01:00', 'ic405/wren-oiii-0086.fits');
INSERT INTO shots VALUES (48, 'IC 405', 'OIII', 240, '2026-01-05T23:50:09+01:00', '2026-01-05T23:54:10+01:00', 'complete', NULL, '2026-01-05T23:54:11+01:00', 'ic405/wren-oiii-0087.fits');
INSERT INTO shots VALUES (49, 'IC 405', 'OIII', 240, '2026-01-05T23:54:12+01:00', '2026-01-05T23:58:12+01:00', 'complete', NULL, '2026-01-05T23:58:15+01:00', 'ic405/wren-oiii-0088.fits');
INSERT INTO shots VALUES (50, 'IC 405', 'SII', 240, '2026-01-06T00:01:08+01:00', '2026-01-06T00:05:09+01:00', 'complete', NULL, '2026-01-06T00:05:10+01:00', 'ic405/wren-sii-0089.fits');
INSERT INTO shots VALUES (51, 'IC 405', 'SII', 240, '2026-01-06T00:05:10+01:00', '2026-01-06T00:09:10+01:00', 'complete', NULL, '2026-01-06T00:09:13+01:00', 'ic405/wren-sii-0090.fits');
INSERT INTO shots VALUES (52, 'IC 405', 'SII', 240, '2026-01-06T00:11:28+01:00', '2026-01-06T00:15:28+01:00', 'complete', NULL, '2026-01-06T00:15:30+01:00', 'ic405/wren-sii-0091.fits');
INSERT INTO shots VALUES (53, 'IC 405', 'SII', 240, '2026-01-06T00:15:32+01:00', '2026-01-06T00:19:32+01:00', 'complete', NULL, '2026-01-06T00:19:33+01:00', 'ic405/wren-sii-0092.fits');
INSERT INTO shots VALUES (54, 'IC 405', 'OIII', 240, '2026-01-06T00:22:11+01:00', '2026-01-06T00:26:11+01:00', 'complete', NULL, '2026-01-06T00:26:13+01:00', 'ic405/wren-oiii-0093.fits');
INSERT INTO shots VALUES (55, 'IC 405', 'OIII', 240, '2026-01-06T00:26:14+01:00', '2026-01-06T00:30:15+01:00', 'complete', NULL, '2026-01-06T00:30:17+01:00', 'ic405/wren-oiii-0094.fits');
INSERT INTO shots VALUES (56, 'IC 405', 'OIII', 240, '2026-01-06T00:30:18+01:00', '2026-01-06T00:34:18+01:00', 'complete', NULL, '2026-01-06T00:34:21+01:00', 'ic405/wren-oiii-0095.fits');
INSERT INTO shots VALUES (57, 'IC 405', 'OIII', 240, '2026-01-06T00:34:22+01:00', '2026-01-06T00:38:22+01:00', 'complete', NULL, '2026-01-06T00:38:25+01:00', 'ic405/wren-oiii-0096.fits');
INSERT INTO shots VALUES (58, 'IC 405', 'OIII', 240, '2026-01-06T00:38:27+01:00', '2026-01-06T00:42:27+01:00', 'complete', NULL, '2026-01-06T00:42:30+01:00', 'ic405/wren-oiii-0097.fits');
INSERT INTO shots VALUES (59, 'IC 405', 'OIII', 240, '2026-01-06T00:42:48+01:00', '2026-01-06T00:46:48+01:00', 'complete', NULL, '2026-01-06T00:46:51+01:00', 'ic405/wren-oiii-0098.fits');
INSERT INTO shots VALUES (60, 'IC 405', 'OIII', 240, '2026-01-06T00:46:53+01:00', '2026-01-06T00:50:53+01:00', 'complete', NULL, '2026-01-06T00:50:55+01:00', 'ic405/wren-oiii-0099.fits');
INSERT INTO shots VALUES (61, 'IC 405', 'OIII', 240, '2026-01-06T00:50:55+01:00', '2026-01-06T00:54:55+01:00', 'complete', NULL, '2026-01-06T00:54:58+01:00', 'ic405/wren-oiii-0100.fits');
INSERT INTO shots VALUES (62, 'IC 405', 'OIII', 240, '2026-01-06T00:55:00+01:00', '2026-01-06T00:59:00+01:00', 'complete', NULL, '2026-01-06T00:59:03+01:00', 'ic405/wren-oiii-0101.fits');
INSERT INTO shots VALUES (63, 'M 81', 'R', 180, '2026-01-06T01:04:36+01:00', '2026-01-06T01:07:36+01:00', 'complete', NULL, '2026-01-06T01:07:38+01:00', 'm81/wren-r-0102.fits');
INSERT INTO shots VALUES (64, 'M 81', 'R', 180, '2026-01-06T01:07:39+01:00', '2026-01-06T01:10:39+01:00', 'complete', NULL, '2026-01-06T01:10:42+01:00', 'm81/wren-r-0103.fits');
INSERT INTO shots VALUES (65, 'M 81', 'R', 180, '2026-01-06T01:10:42+01:00', '2026-01-06T01:13:43+01:00', 'complete', NULL, '2026-01-06T01:13:46+01:00', 'm81/wren-r-0104.fits');
INSERT INTO shots VALUES (66, 'M 81', 'R', 180, '2026-01-06T01:13:47+01:00', '2026-01-06T01:16:47+01:00', 'complete', NULL, '2026-01-06T01:16:49+01:00', 'm81/wren-r-0105.fits');
INSERT INTO shots VALUES (67, 'M 81', 'R', 180, '2026-01-06T01:17:15+01:00', '2026-01-06T01:20:15+01:00', 'complete', NULL, '2026-01-06T01:20:18+01:00', 'm81/wren-r-0106.fits');
INSERT INTO shots VALUES (68, 'M 81', 'R', 180, '2026-01-06T01:20:19+01:00', '2026-01-06T01:23:19+01:00', 'complete', NULL, '2026-01-06T01:23:23+01:00', 'm81/wren-r-0107.fits');
INSERT INTO shots VALUES (69, 'M 81', 'G', 180, '2026-01-06T01:23:41+01:00', '2026-01-06T01:26:41+01:00', 'complete', NULL, '2026-01-06T01:26:44+01:00', 'm81/wren-g-0108.fits');
INSERT INTO shots VALUES (70, 'M 81', 'G', 180, '2026-01-06T01:26:45+01:00', '2026-01-06T01:29:45+01:00', 'complete', NULL, '2026-01-06T01:29:49+01:00', 'm81/wren-g-0109.fits');
INSERT INTO shots VALUES (71, 'M 81', 'G', 180, '2026-01-06T01:29:49+01:00', '2026-01-06T01:32:50+01:00', 'complete', NULL, '2026-01-06T01:32:53+01:00', 'm81/wren-g-0110.fits');
INSERT INTO shots VALUES (72, 'M 81', 'G', 180, '2026-01-06T01:33:28+01:00', '2026-01-06T01:36:28+01:00', 'complete', NULL, '2026-01-06T01:36:30+01:00', 'm81/wren-g-0111.fits');
INSERT INTO shots VALUES (73, 'M 81', 'G', 180, '2026-01-06T01:36:31+01:00', '2026-01-06T01:39:32+01:00', 'complete', NULL, '2026-01-06T01:39:34+01:00', 'm81/wren-g-0112.fits');
INSERT INTO shots VALUES (74, 'M 81', 'B', 180, '2026-01-06T01:40:01+01:00', '2026-01-06T01:43:01+01:00', 'complete', NULL, '2026-01-06T01:43:02+01:00', 'm81/wren-b-0113.fits');
INSERT INTO shots VALUES (75, 'M 81', 'B', 180, '2026-01-06T01:43:04+01:00', '2026-01-06T01:46:04+01:00', 'complete', NULL, '2026-01-06T01:46:07+01:00', 'm81/wren-b-0114.fits');
INSERT INTO shots VALUES (76, 'M 81', 'B', 180, '2026-01-06T01:46:19+01:00', '2026-01-06T01:49:19+01:00', 'complete', NULL, '2026-01-06T01:49:22+01:00', 'm81/wren-b-0115.fits');
INSERT INTO shots VALUES (77, 'M 81', 'B', 180, '2026-01-06T01:49:24+01:00', '2026-01-06T01:52:24+01:00', 'complete', NULL, '2026-01-06T01:52:25+01:00', 'm81/wren-b-0116.fits');
INSERT INTO shots VALUES (78, 'M 81', 'R', 180, '2026-01-06T01:52:40+01:00', '2026-01-06T01:55:40+01:00', 'complete', NULL, '2026-01-06T01:55:44+01:00', 'm81/wren-r-0117.fits');
INSERT INTO shots VALUES (79, 'M 81', 'R', 180, '2026-01-06T01:55:45+01:00', '2026-01-06T01:58:45+01:00', 'complete', NULL, '2026-01-06T01:58:48+01:00', 'm81/wren-r-0118.fits');
INSERT INTO shots VALUES (80, 'M 81', 'R', 180, '2026-01-06T01:58:50+01:00', '2026-01-06T02:01:50+01:00', 'complete', NULL, '2026-01-06T02:01:54+01:00', 'm81/wren-r-0119.fits');
INSERT INTO shots VALUES (81, 'M 81', 'R', 180, '2026-01-06T02:02:24+01:00', '2026-01-06T02:05:25+01:00', 'complete', NULL, '2026-01-06T02:05:26+01:00', 'm81/wren-r-0120.fits');
INSERT INTO shots VALUES (82, 'M 81', 'R', 180, '2026-01-06T02:05:27+01:00', '2026-01-06T02:08:27+01:00', 'complete', NULL, '2026-01-06T02:08:29+01:00', 'm81/wren-r-0121.fits');
INSERT INTO shots VALUES (83, 'M 81', 'R', 180, '2026-01-06T02:08:29+01:00', '2026-01-06T02:11:29+01:00', 'complete', NULL, '2026-01-06T02:11:32+01:00', 'm81/wren-r-0122.fits');
INSERT INTO shots VALUES (84, 'M 81', 'R', 180, '2026-01-06T02:11:33+01:00', '2026-01-06T02:14:33+01:00', 'complete', NULL, '2026-01-06T02:14:36+01:00', 'm81/wren-r-0123.fits');
INSERT INTO shots VALUES (85, 'M 81', 'G', 180, '2026-01-06T02:15:01+01:00', '2026-01-06T02:18:01+01:00', 'complete', NULL, '2026-01-06T02:18:04+01:00', 'm81/wren-g-0124.fits');
INSERT INTO shots VALUES (86, 'M 81', 'G', 180, '2026-01-06T02:18:05+01:00', '2026-01-06T02:21:06+01:00', 'complete', NULL, '2026-01-06T02:21:09+01:00', 'm81/wren-g-0125.fits');
INSERT INTO shots VALUES (87, 'M 81', 'G', 180, '2026-01-06T02:21:09+01:00', '2026-01-06T02:24:09+01:00', 'complete', NULL, '2026-01-06T02:24:11+01:00', 'm81/wren-g-0126.fits');
INSERT INTO shots VALUES (88, 'M 81', 'G', 180, '2026-01-06T02:24:42+01:00', '2026-01-06T02:27:42+01:00', 'complete', NULL, '2026-01-06T02:27:46+01:00', 'm81/wren-g-0127.fits');
INSERT INTO shots VALUES (89, 'M 81', 'G', 180, '2026-01-06T02:27:47+01:00', '2026-01-06T02:30:47+01:00', 'complete', NULL, '2026-01-06T02:30:49+01:00', 'm81/wren-g-0128.fits');
INSERT INTO shots VALUES (90, 'M 81', 'B', 180, '2026-01-06T02:33:42+01:00', '2026-01-06T02:36:43+01:00', 'complete', NULL, '2026-01-06T02:36:46+01:00', 'm81/wren-b-0129.fits');
INSERT INTO shots VALUES (91, 'M 81', 'B', 180, '2026-01-06T02:36:48+01:00', '2026-01-06T02:39:48+01:00', 'complete', NULL, '2026-01-06T02:39:52+01:00', 'm81/wren-b-0130.fits');
INSERT INTO shots VALUES (92, 'M 81', 'B', 180, '2026-01-06T02:40:14+01:00', '2026-01-06T02:41:07+01:00', 'aborted', 'cloud over the east', NULL, NULL);
INSERT INTO shots VALUES (93, 'M 81', 'R', 180, '2026-01-06T03:15:45+01:00', '2026-01-06T03:18:45+01:00', 'complete', NULL, '2026-01-06T03:18:46+01:00', 'm81/wren-r-0133.fits');
INSERT INTO shots VALUES (94, 'M 81', 'R', 180, '2026-01-06T03:18:48+01:00', '2026-01-06T03:21:49+01:00', 'complete', NULL, '2026-01-06T03:21:51+01:00', 'm81/wren-r-0134.fits');
INSERT INTO shots VALUES (95, 'M 81', 'R', 180, '2026-01-06T03:21:52+01:00', '2026-01-06T03:24:52+01:00', 'complete', NULL, '2026-01-06T03:24:54+01:00', 'm81/wren-r-0135.fits');
INSERT INTO shots VALUES (96, 'M 81', 'R', 180, '2026-01-06T03:25:19+01:00', '2026-01-06T03:28:19+01:00', 'complete', NULL, '2026-01-06T03:28:21+01:00', 'm81/wren-r-0136.fits');
INSERT INTO shots VALUES (97, 'M 81', 'R', 180, '2026-01-06T03:28:22+01:00', '2026-01-06T03:31:22+01:00', 'complete', NULL, '2026-01-06T03:31:25+01:00', 'm81/wren-r-0137.fits');
INSERT INTO shots VALUES (98, 'M 81', 'R', 180, '2026-01-06T03:31:26+01:00', '2026-01-06T03:34:26+01:00', 'complete', NULL, '2026-01-06T03:34:30+01:00', 'm81/wren-r-0138.fits');
INSERT INTO shots VALUES (99, 'M 81', 'G', 180, '2026-01-06T03:34:51+01:00', '2026-01-06T03:37:51+01:00', 'complete', NULL, '2026-01-06T03:37:52+01:00', 'm81/wren-g-0139.fits');
INSERT INTO shots VALUES (100, 'M 81', 'G', 180, '2026-01-06T03:37:53+01:00', '2026-01-06T03:40:53+01:00', 'complete', NULL, '2026-01-06T03:40:56+01:00', 'm81/wren-g-0140.fits');
INSERT INTO shots VALUES (101, 'M 81', 'G', 180, '2026-01-06T03:40:58+01:00', '2026-01-06T03:43:58+01:00', 'complete', NULL, '2026-01-06T03:44:00+01:00', 'm81/wren-g-0141.fits');
INSERT INTO shots VALUES (102, 'M 81', 'G', 180, '2026-01-06T03:44:01+01:00', '2026-01-06T03:47:01+01:00', 'complete', NULL, '2026-01-06T03:47:04+01:00', 'm81/wren-g-0142.fits');
INSERT INTO shots VALUES (103, 'M 81', 'G', 180, '2026-01-06T03:47:32+01:00', '2026-01-06T03:50:33+01:00', 'complete', NULL, '2026-01-06T03:50:36+01:00', 'm81/wren-g-0143.fits');
INSERT INTO shots VALUES (104, 'M 81', 'G', 180, '2026-01-06T03:50:38+01:00', '2026-01-06T03:53:38+01:00', 'complete', NULL, '2026-01-06T03:53:41+01:00', 'm81/wren-g-0144.fits');
INSERT INTO shots VALUES (105, 'M 81', 'G', 180, '2026-01-06T03:53:43+01:00', '2026-01-06T03:56:43+01:00', 'complete', NULL, '2026-01-06T03:56:44+01:00', 'm81/wren-g-0145.fits');
INSERT INTO shots VALUES (106, 'M 81', 'G', 180, '2026-01-06T03:56:45+01:00', '2026-01-06T03:59:45+01:00', 'complete', NULL, '2026-01-06T03:59:48+01:00', 'm81/wren-g-0146.fits');
INSERT INTO shots VALUES (107, 'M 81', 'B', 180, '2026-01-06T04:03:55+01:00', '2026-01-06T04:06:55+01:00', 'complete', NULL, '2026-01-06T04:06:58+01:00', 'm81/wren-b-0147.fits');
INSERT INTO shots VALUES (108, 'M 81', 'B', 180, '2026-01-06T04:06:59+01:00', NULL, NULL, NULL, NULL, NULL);
INSERT INTO shots VALUES (109, 'M 81', 'B', 180, '2026-01-06T04:17:10+01:00', '2026-01-06T04:20:10+01:00', 'complete', NULL, '2026-01-06T04:20:13+01:00', 'm81/wren-b-0151.fits');
INSERT INTO shots VALUES (110, 'M 81', 'B', 180, '2026-01-06T04:20:14+01:00', '2026-01-06T04:23:14+01:00', 'complete', NULL, '2026-01-06T04:23:16+01:00', 'm81/wren-b-0152.fits');
INSERT INTO shots VALUES (111, 'M 81', 'R', 180, '2026-01-06T04:23:47+01:00', '2026-01-06T04:26:47+01:00', 'complete', NULL, '2026-01-06T04:26:50+01:00', 'm81/wren-r-0153.fits');
INSERT INTO shots VALUES (112, 'M 81', 'R', 180, '2026-01-06T04:26:51+01:00', '2026-01-06T04:29:52+01:00', 'complete', NULL, '2026-01-06T04:29:52+01:00', 'm81/wren-r-0154.fits');
INSERT INTO shots VALUES (113, 'M 81', 'R', 180, '2026-01-06T04:30:06+01:00', '2026-01-06T04:33:06+01:00', 'complete', NULL, '2026-01-06T04:33:09+01:00', 'm81/wren-r-0155.fits');
INSERT INTO shots VALUES (114, 'M 81', 'R', 180, '2026-01-06T04:33:11+01:00', '2026-01-06T04:36:11+01:00', 'complete', NULL, '2026-01-06T04:36:13+01:00', 'm81/wren-r-0156.fits');
INSERT INTO shots VALUES (115, 'M 81', 'R', 180, '2026-01-06T04:36:14+01:00', '2026-01-06T04:39:14+01:00', 'complete', NULL, '2026-01-06T04:39:17+01:00', 'm81/wren-r-0157.fits');
INSERT INTO shots VALUES (116, 'M 81', 'R', 180, '2026-01-06T04:39:18+01:00', '2026-01-06T04:42:18+01:00', 'complete', NULL, '2026-01-06T04:42:21+01:00', 'm81/wren-r-0158.fits');
INSERT INTO shots VALUES (117, 'M 81', 'G', 180, '2026-01-06T04:43:01+01:00', '2026-01-06T04:46:01+01:00', 'complete', NULL, '2026-01-06T04:46:04+01:00', 'm81/wren-g-0159.fits');
INSERT INTO shots VALUES (118, 'M 81', 'G', 180, '2026-01-06T04:46:06+01:00', '2026-01-06T04:49:06+01:00', 'complete', NULL, '2026-01-06T04:49:09+01:00', 'm81/wren-g-0160.fits');
INSERT INTO shots VALUES (119, 'M 81', 'G', 180, '2026-01-06T04:49:41+01:00', '2026-01-06T04:52:42+01:00', 'complete', NULL, '2026-01-06T04:52:44+01:00', 'm81/wren-g-0161.fits');
INSERT INTO shots VALUES (120, 'M 81', 'G', 180, '2026-01-06T04:52:45+01:00', '2026-01-06T04:55:45+01:00', 'complete', NULL, '2026-01-06T04:55:47+01:00', 'm81/wren-g-0162.fits');
INSERT INTO shots VALUES (121, 'M 81', 'G', 180, '2026-01-06T04:55:47+01:00', '2026-01-06T04:58:47+01:00', 'complete', NULL, '2026-01-06T04:58:51+01:00', 'm81/wren-g-0163.fits');
INSERT INTO shots VALUES (122, 'M 81', 'B', 180, '2026-01-06T04:59:17+01:00', '2026-01-06T05:02:17+01:00', 'complete', NULL, '2026-01-06T05:02:20+01:00', 'm81/wren-b-0164.fits');
INSERT INTO shots VALUES (123, 'M 81', 'B', 180, '2026-01-06T05:02:21+01:00', '2026-01-06T05:05:21+01:00', 'complete', NULL, '2026-01-06T05:05:24+01:00', 'm81/wren-b-0165.fits');
INSERT INTO shots VALUES (124, 'M 81', 'B', 180, '2026-01-06T05:05:25+01:00', '2026-01-06T05:08:26+01:00', 'complete', NULL, '2026-01-06T05:08:29+01:00', 'm81/wren-b-0166.fits');
INSERT INTO shots VALUES (125, 'M 81', 'B', 180, '2026-01-06T05:09:34+01:00', '2026-01-06T05:12:34+01:00', 'complete', NULL, '2026-01-06T05:12:37+01:00', 'm81/wren-b-0167.fits');
INSERT INTO shots VALUES (126, 'M 81', 'B', 180, '2026-01-06T05:12:39+01:00', '2026-01-06T05:15:39+01:00', 'complete', NULL, '2026-01-06T05:15:41+01:00', 'm81/wren-b-0168.fits');
INSERT INTO shots VALUES (127, 'M 81', 'B', 180, '2026-01-06T05:15:41+01:00', '2026-01-06T05:18:42+01:00', 'complete', NULL, '2026-01-06T05:18:43+01:00', 'm81/wren-b-0169.fits');
INSERT INTO shots VALUES (128, 'M 81', 'R', 180, '2026-01-06T05:19:21+01:00', '2026-01-06T05:22:21+01:00', 'complete', NULL, '2026-01-06T05:22:24+01:00', 'm81/wren-r-0170.fits');
INSERT INTO shots VALUES (129, 'M 81', 'R', 180, '2026-01-06T05:22:25+01:00', '2026-01-06T05:25:26+01:00', 'complete', NULL, '2026-01-06T05:25:29+01:00', 'm81/wren-r-0171.fits');
INSERT INTO shots VALUES (130, 'M 81', 'R', 180, '2026-01-06T05:25:30+01:00', '2026-01-06T05:28:30+01:00', 'complete', NULL, '2026-01-06T05:28:33+01:00', 'm81/wren-r-0172.fits');
INSERT INTO shots VALUES (131, 'M 81', 'R', 180, '2026-01-06T05:32:15+01:00', '2026-01-06T05:35:15+01:00', 'complete', NULL, '2026-01-06T05:35:19+01:00', 'm81/wren-r-0173.fits');
INSERT INTO shots VALUES (132, 'M 81', 'R', 180, '2026-01-06T05:35:20+01:00', '2026-01-06T05:38:20+01:00', 'complete', NULL, '2026-01-06T05:38:21+01:00', 'm81/wren-r-0174.fits');
INSERT INTO shots VALUES (133, 'M 81', 'R', 180, '2026-01-06T05:38:21+01:00', '2026-01-06T05:41:21+01:00', 'complete', NULL, '2026-01-06T05:41:25+01:00', 'm81/wren-r-0175.fits');
INSERT INTO shots VALUES (134, 'M 81', 'R', 180, '2026-01-06T05:41:26+01:00', '2026-01-06T05:44:26+01:00', 'complete', NULL, '2026-01-06T05:44:27+01:00', 'm81/wren-r-0176.fits');
INSERT INTO shots VALUES (135, 'M 81', 'G', 180, '2026-01-06T05:44:50+01:00', '2026-01-06T05:47:50+01:00', 'complete', NULL, '2026-01-06T05:47:51+01:00', 'm81/wren-g-0177.fits');
INSERT INTO shots VALUES (136, 'M 81', 'G', 180, '2026-01-06T05:47:52+01:00', '2026-01-06T05:50:53+01:00', 'complete', NULL, '2026-01-06T05:50:54+01:00', 'm81/wren-g-0178.fits');
INSERT INTO shots VALUES (137, 'M 81', 'G', 180, '2026-01-06T05:51:25+01:00', '2026-01-06T05:54:25+01:00', 'complete', NULL, '2026-01-06T05:54:29+01:00', 'm81/wren-g-0179.fits');
INSERT INTO shots VALUES (138, 'M 81', 'G', 180, '2026-01-06T05:54:29+01:00', '2026-01-06T05:57:30+01:00', 'complete', NULL, '2026-01-06T05:57:32+01:00', 'm81/wren-g-0180.fits');
INSERT INTO shots VALUES (139, 'M 81', 'G', 180, '2026-01-06T05:57:33+01:00', '2026-01-06T06:00:33+01:00', 'complete', NULL, '2026-01-06T06:00:36+01:00', 'm81/wren-g-0181.fits');
INSERT INTO shots VALUES (140, 'M 81', 'G', 180, '2026-01-06T06:00:37+01:00', '2026-01-06T06:03:37+01:00', 'complete', NULL, '2026-01-06T06:03:40+01:00', 'm81/wren-g-0182.fits');
CREATE TABLE acts (began TEXT, ended TEXT, act TEXT, amount REAL, unit TEXT, remark TEXT);
INSERT INTO acts (began, ended, act, amount, unit, remark) VALUES
  ('2026-01-05T20:21:57+01:00', '2026-01-05T20:22:29+01:00', 'slew', NULL, NULL, 'to IC 405'),
  ('2026-01-05T20:25:40+01:00', '2026-01-05T20:25:43+01:00', 'turn filter wheel', NULL, NULL, 'to SII'),
  ('2026-01-05T20:46:04+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T20:46:05+01:00', '2026-01-05T20:46:06+01:00', 'dither of the mount', 2.7, 'px', NULL),
  ('2026-01-05T20:46:06+01:00', '2026-01-05T20:46:18+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T21:06:38+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T21:06:39+01:00', '2026-01-05T21:06:42+01:00', 'dither of the mount', 6.3, 'px', NULL),
  ('2026-01-05T21:06:42+01:00', '2026-01-05T21:06:58+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T21:07:00+01:00', '2026-01-05T21:07:04+01:00', 'turn filter wheel', NULL, NULL, 'to OIII'),
  ('2026-01-05T21:15:11+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T21:17:10+01:00', '2026-01-05T21:17:12+01:00', 'dither of the mount', 4.6, 'px', NULL),
  ('2026-01-05T21:17:12+01:00', '2026-01-05T21:17:32+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T21:37:53+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T21:37:54+01:00', '2026-01-05T21:37:56+01:00', 'dither of the mount', 5.9, 'px', NULL),
  ('2026-01-05T21:37:56+01:00', '2026-01-05T21:38:02+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T21:38:05+01:00', '2026-01-05T21:38:07+01:00', 'turn filter wheel', NULL, NULL, 'to SII'),
  ('2026-01-05T21:54:23+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T21:54:23+01:00', '2026-01-05T21:54:26+01:00', 'dither of the mount', 3.7, 'px', NULL),
  ('2026-01-05T21:54:26+01:00', '2026-01-05T21:55:26+01:00', 'settle after dither', NULL, NULL, 'failed: not settled within 60 s'),
  ('2026-01-05T22:18:14+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T22:18:17+01:00', '2026-01-05T22:18:19+01:00', 'dither of the mount', 4.4, 'px', NULL),
  ('2026-01-05T22:18:19+01:00', '2026-01-05T22:18:43+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T22:18:46+01:00', '2026-01-05T22:18:48+01:00', 'turn filter wheel', NULL, NULL, 'to OIII'),
  ('2026-01-05T22:26:58+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T22:28:56+01:00', '2026-01-05T22:28:57+01:00', 'dither of the mount', 1.8, 'px', NULL),
  ('2026-01-05T22:28:57+01:00', '2026-01-05T22:29:07+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T22:45:23+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T22:45:24+01:00', '2026-01-05T22:45:26+01:00', 'dither of the mount', 3.9, 'px', NULL),
  ('2026-01-05T22:45:26+01:00', '2026-01-05T22:45:54+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T22:45:56+01:00', '2026-01-05T22:46:03+01:00', 'turn filter wheel', NULL, NULL, 'to SII'),
  ('2026-01-05T23:02:18+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T23:02:18+01:00', '2026-01-05T23:02:26+01:00', 'dither of the mount', 3.1, 'px', 'failed: mount did not answer'),
  ('2026-01-05T23:22:52+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T23:22:53+01:00', '2026-01-05T23:22:56+01:00', 'dither of the mount', 3.4, 'px', NULL),
  ('2026-01-05T23:22:56+01:00', '2026-01-05T23:23:10+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T23:25:25+01:00', '2026-01-05T23:25:29+01:00', 'turn filter wheel', NULL, NULL, 'to OIII'),
  ('2026-01-05T23:41:46+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T23:41:47+01:00', '2026-01-05T23:41:51+01:00', 'dither of the mount', 5.4, 'px', NULL),
  ('2026-01-05T23:41:51+01:00', '2026-01-05T23:41:59+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T23:58:15+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-05T23:58:16+01:00', '2026-01-05T23:58:19+01:00', 'dither of the mount', 5.8, 'px', NULL),
  ('2026-01-05T23:58:19+01:00', '2026-01-05T23:58:32+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-05T23:58:36+01:00', '2026-01-05T23:59:47+01:00', 'meridian flip', NULL, NULL, NULL),
  ('2026-01-06T00:01:01+01:00', '2026-01-06T00:01:07+01:00', 'turn filter wheel', NULL, NULL, 'to SII'),
  ('2026-01-06T00:09:14+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T00:11:10+01:00', '2026-01-06T00:11:12+01:00', 'dither of the mount', 5.0, 'px', NULL),
  ('2026-01-06T00:11:12+01:00', '2026-01-06T00:11:27+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T00:19:34+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T00:21:39+01:00', '2026-01-06T00:21:42+01:00', 'dither of the mount', 3.1, 'px', NULL),
  ('2026-01-06T00:21:42+01:00', '2026-01-06T00:22:06+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T00:22:07+01:00', '2026-01-06T00:22:11+01:00', 'turn filter wheel', NULL, NULL, 'to OIII'),
  ('2026-01-06T00:42:31+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T00:42:31+01:00', '2026-01-06T00:42:33+01:00', 'dither of the mount', 4.7, 'px', NULL),
  ('2026-01-06T00:42:33+01:00', '2026-01-06T00:42:45+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T00:59:04+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T00:59:05+01:00', '2026-01-06T00:59:07+01:00', 'dither of the mount', 4.4, 'px', NULL),
  ('2026-01-06T00:59:07+01:00', '2026-01-06T00:59:23+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T00:59:27+01:00', '2026-01-06T01:00:04+01:00', 'slew', NULL, NULL, 'to M 81'),
  ('2026-01-06T01:04:32+01:00', '2026-01-06T01:04:35+01:00', 'turn filter wheel', NULL, NULL, 'to R'),
  ('2026-01-06T01:16:50+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T01:16:53+01:00', '2026-01-06T01:16:54+01:00', 'dither of the mount', 6.2, 'px', NULL),
  ('2026-01-06T01:16:54+01:00', '2026-01-06T01:17:14+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T01:23:23+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T01:23:24+01:00', '2026-01-06T01:23:31+01:00', 'dither of the mount', 3.3, 'px', 'failed: mount did not answer'),
  ('2026-01-06T01:23:35+01:00', '2026-01-06T01:23:40+01:00', 'turn filter wheel', NULL, NULL, 'to G'),
  ('2026-01-06T01:32:55+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T01:32:56+01:00', '2026-01-06T01:32:59+01:00', 'dither of the mount', 3.0, 'px', NULL),
  ('2026-01-06T01:32:59+01:00', '2026-01-06T01:33:25+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T01:39:35+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T01:39:36+01:00', '2026-01-06T01:39:37+01:00', 'dither of the mount', 4.3, 'px', NULL),
  ('2026-01-06T01:39:37+01:00', '2026-01-06T01:39:55+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T01:39:57+01:00', '2026-01-06T01:40:01+01:00', 'turn filter wheel', NULL, NULL, 'to B'),
  ('2026-01-06T01:46:08+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T01:46:09+01:00', '2026-01-06T01:46:11+01:00', 'dither of the mount', 1.7, 'px', NULL),
  ('2026-01-06T01:46:11+01:00', '2026-01-06T01:46:16+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T01:52:26+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T01:52:26+01:00', '2026-01-06T01:52:28+01:00', 'dither of the mount', 5.1, 'px', NULL),
  ('2026-01-06T01:52:28+01:00', '2026-01-06T01:52:33+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T01:52:35+01:00', '2026-01-06T01:52:39+01:00', 'turn filter wheel', NULL, NULL, 'to R'),
  ('2026-01-06T02:01:54+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T02:01:55+01:00', '2026-01-06T02:01:57+01:00', 'dither of the mount', 4.2, 'px', NULL),
  ('2026-01-06T02:01:57+01:00', '2026-01-06T02:02:23+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T02:14:36+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T02:14:42+01:00', '2026-01-06T02:14:45+01:00', 'dither of the mount', 4.8, 'px', NULL),
  ('2026-01-06T02:14:45+01:00', '2026-01-06T02:14:54+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T02:14:55+01:00', '2026-01-06T02:15:00+01:00', 'turn filter wheel', NULL, NULL, 'to G'),
  ('2026-01-06T02:24:13+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T02:24:14+01:00', '2026-01-06T02:24:16+01:00', 'dither of the mount', 2.6, 'px', NULL),
  ('2026-01-06T02:24:16+01:00', '2026-01-06T02:24:40+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T02:30:50+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T02:30:51+01:00', '2026-01-06T02:30:53+01:00', 'dither of the mount', 5.2, 'px', NULL),
  ('2026-01-06T02:30:53+01:00', '2026-01-06T02:31:17+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T02:33:36+01:00', '2026-01-06T02:33:41+01:00', 'turn filter wheel', NULL, NULL, 'to B'),
  ('2026-01-06T02:39:52+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T02:39:53+01:00', '2026-01-06T02:39:56+01:00', 'dither of the mount', 3.6, 'px', NULL),
  ('2026-01-06T02:39:56+01:00', '2026-01-06T02:40:12+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T02:41:12+01:00', '2026-01-06T03:14:12+01:00', 'hold', NULL, NULL, 'cloud over the east'),
  ('2026-01-06T03:15:40+01:00', '2026-01-06T03:15:43+01:00', 'turn filter wheel', NULL, NULL, 'to R'),
  ('2026-01-06T03:24:55+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T03:24:56+01:00', '2026-01-06T03:24:57+01:00', 'dither of the mount', 5.8, 'px', NULL),
  ('2026-01-06T03:24:57+01:00', '2026-01-06T03:25:17+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T03:34:30+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T03:34:31+01:00', '2026-01-06T03:34:33+01:00', 'dither of the mount', 5.3, 'px', NULL),
  ('2026-01-06T03:34:33+01:00', '2026-01-06T03:34:45+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T03:34:47+01:00', '2026-01-06T03:34:50+01:00', 'turn filter wheel', NULL, NULL, 'to G'),
  ('2026-01-06T03:47:06+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T03:47:06+01:00', '2026-01-06T03:47:10+01:00', 'dither of the mount', 4.2, 'px', NULL),
  ('2026-01-06T03:47:10+01:00', '2026-01-06T03:47:31+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T03:59:49+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T03:59:50+01:00', '2026-01-06T03:59:53+01:00', 'dither of the mount', 3.4, 'px', NULL),
  ('2026-01-06T03:59:53+01:00', '2026-01-06T04:00:10+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T04:03:48+01:00', '2026-01-06T04:03:54+01:00', 'turn filter wheel', NULL, NULL, 'to B'),
  ('2026-01-06T04:17:03+01:00', '2026-01-06T04:17:09+01:00', 'turn filter wheel', NULL, NULL, 'to B'),
  ('2026-01-06T04:23:17+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T04:23:18+01:00', '2026-01-06T04:23:20+01:00', 'dither of the mount', 4.9, 'px', NULL),
  ('2026-01-06T04:23:20+01:00', '2026-01-06T04:23:39+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T04:23:41+01:00', '2026-01-06T04:23:46+01:00', 'turn filter wheel', NULL, NULL, 'to R'),
  ('2026-01-06T04:29:53+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T04:29:54+01:00', '2026-01-06T04:29:55+01:00', 'dither of the mount', 1.7, 'px', NULL),
  ('2026-01-06T04:29:55+01:00', '2026-01-06T04:30:03+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T04:42:23+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T04:42:24+01:00', '2026-01-06T04:42:27+01:00', 'dither of the mount', 2.6, 'px', NULL),
  ('2026-01-06T04:42:27+01:00', '2026-01-06T04:42:52+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T04:42:54+01:00', '2026-01-06T04:43:00+01:00', 'turn filter wheel', NULL, NULL, 'to G'),
  ('2026-01-06T04:49:10+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T04:49:10+01:00', '2026-01-06T04:49:12+01:00', 'dither of the mount', 1.9, 'px', NULL),
  ('2026-01-06T04:49:12+01:00', '2026-01-06T04:49:38+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T04:58:52+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T04:58:53+01:00', '2026-01-06T04:58:56+01:00', 'dither of the mount', 5.0, 'px', NULL),
  ('2026-01-06T04:58:56+01:00', '2026-01-06T04:59:11+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T04:59:13+01:00', '2026-01-06T04:59:17+01:00', 'turn filter wheel', NULL, NULL, 'to B'),
  ('2026-01-06T05:08:30+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T05:08:31+01:00', '2026-01-06T05:08:32+01:00', 'dither of the mount', 4.0, 'px', NULL),
  ('2026-01-06T05:08:32+01:00', '2026-01-06T05:09:32+01:00', 'settle after dither', NULL, NULL, 'failed: not settled within 60 s'),
  ('2026-01-06T05:18:44+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T05:18:44+01:00', '2026-01-06T05:18:48+01:00', 'dither of the mount', 3.9, 'px', NULL),
  ('2026-01-06T05:18:48+01:00', '2026-01-06T05:19:15+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T05:19:18+01:00', '2026-01-06T05:19:20+01:00', 'turn filter wheel', NULL, NULL, 'to R'),
  ('2026-01-06T05:28:34+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T05:28:35+01:00', '2026-01-06T05:28:36+01:00', 'dither of the mount', 2.0, 'px', NULL),
  ('2026-01-06T05:28:36+01:00', '2026-01-06T05:29:36+01:00', 'settle after dither', NULL, NULL, 'failed: not settled within 60 s'),
  ('2026-01-06T05:44:28+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T05:44:32+01:00', '2026-01-06T05:44:35+01:00', 'dither of the mount', 1.9, 'px', NULL),
  ('2026-01-06T05:44:35+01:00', '2026-01-06T05:44:45+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T05:44:46+01:00', '2026-01-06T05:44:50+01:00', 'turn filter wheel', NULL, NULL, 'to G'),
  ('2026-01-06T05:50:56+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T05:50:57+01:00', '2026-01-06T05:50:59+01:00', 'dither of the mount', 6.2, 'px', NULL),
  ('2026-01-06T05:50:59+01:00', '2026-01-06T05:51:23+01:00', 'settle after dither', NULL, NULL, NULL),
  ('2026-01-06T06:03:41+01:00', NULL, 'ready for dither', NULL, NULL, 'waiting for the other train'),
  ('2026-01-06T06:03:42+01:00', '2026-01-06T06:03:43+01:00', 'dither of the mount', 3.0, 'px', NULL),
  ('2026-01-06T06:03:43+01:00', '2026-01-06T06:03:53+01:00', 'settle after dither', NULL, NULL, NULL);
CREATE TABLE focus_runs (began TEXT, ended TEXT, star_px_before REAL, star_px_after REAL, position INTEGER, air_c REAL, failure TEXT);
INSERT INTO focus_runs VALUES ('2026-01-05T20:23:20+01:00', '2026-01-05T20:25:32+01:00', 2.81, NULL, 3329, 3.7, 'not enough stars');
INSERT INTO focus_runs VALUES ('2026-01-05T21:55:29+01:00', '2026-01-05T21:57:50+01:00', 3.47, 2.72, 3304, 2.5, NULL);
INSERT INTO focus_runs VALUES ('2026-01-05T23:23:12+01:00', '2026-01-05T23:24:59+01:00', 2.66, 2.28, 3291, 1.2, NULL);
INSERT INTO focus_runs VALUES ('2026-01-06T01:01:04+01:00', '2026-01-06T01:02:34+01:00', 2.76, 2.63, 3228, 0.2, NULL);
INSERT INTO focus_runs VALUES ('2026-01-06T02:31:19+01:00', '2026-01-06T02:33:25+01:00', 3.5, NULL, 3228, -0.7, 'not enough stars');
INSERT INTO focus_runs VALUES ('2026-01-06T04:00:14+01:00', '2026-01-06T04:03:38+01:00', 3.35, 2.66, 3182, -1.3, NULL);
INSERT INTO focus_runs VALUES ('2026-01-06T05:29:39+01:00', '2026-01-06T05:32:08+01:00', 3.46, 3.11, 3152, -1.7, NULL);
CREATE TABLE cooler (at TEXT, setpoint_c INTEGER, sensor_c REAL);
INSERT INTO cooler VALUES ('2026-01-05T20:12:12+01:00', -15, NULL);
INSERT INTO cooler VALUES ('2026-01-05T20:18:40+01:00', NULL, -15.2);
INSERT INTO cooler VALUES ('2026-01-05T21:12:11+01:00', -15, -14.9);
INSERT INTO cooler VALUES ('2026-01-05T22:12:11+01:00', -15, -15.2);
INSERT INTO cooler VALUES ('2026-01-05T23:12:09+01:00', -15, -14.9);
INSERT INTO cooler VALUES ('2026-01-06T00:12:10+01:00', -15, -15.0);
INSERT INTO cooler VALUES ('2026-01-06T01:12:09+01:00', -15, -14.9);
INSERT INTO cooler VALUES ('2026-01-06T02:12:09+01:00', -15, -14.9);
INSERT INTO cooler VALUES ('2026-01-06T03:12:10+01:00', -15, -15.1);
INSERT INTO cooler VALUES ('2026-01-06T05:12:10+01:00', -15, -15.2);
INSERT INTO cooler VALUES ('2026-01-06T06:04:44+01:00', 15, NULL);
CREATE TABLE remarks (at TEXT, text TEXT);
INSERT INTO remarks VALUES ('2026-01-05T20:40:49+01:00', 'air -3.3 C');
INSERT INTO remarks VALUES ('2026-01-05T21:24:33+01:00', 'heron''s clock differs by 66 ms');
INSERT INTO remarks VALUES ('2026-01-05T21:26:22+01:00', 'air 0.7 C');
INSERT INTO remarks VALUES ('2026-01-05T22:17:25+01:00', 'free disk 297 GB');
INSERT INTO remarks VALUES ('2026-01-05T22:59:58+01:00', 'air -1.4 C');
INSERT INTO remarks VALUES ('2026-01-06T01:26:11+01:00', 'air 1.7 C');
INSERT INTO remarks VALUES ('2026-01-06T02:19:34+01:00', 'free disk 260 GB');
INSERT INTO remarks VALUES ('2026-01-06T02:34:55+01:00', 'heron''s clock differs by 77 ms');
INSERT INTO remarks VALUES ('2026-01-06T03:32:09+01:00', 'air 1.9 C');
INSERT INTO remarks VALUES ('2026-01-06T03:49:01+01:00', 'heron''s clock differs by 35 ms');
INSERT INTO remarks VALUES ('2026-01-06T03:53:27+01:00', 'free disk 416 GB');
INSERT INTO remarks VALUES ('2026-01-06T03:56:09+01:00', 'heron''s clock differs by 71 ms');
INSERT INTO remarks VALUES ('2026-01-06T04:16:30+01:00', 'night book started again after a power dip');
INSERT INTO remarks VALUES ('2026-01-06T04:50:28+01:00', 'air -3.6 C');
INSERT INTO remarks VALUES ('2026-01-06T05:59:05+01:00', 'air 0.5 C');
COMMIT;
